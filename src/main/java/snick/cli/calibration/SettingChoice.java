package snick.cli.calibration;

import picocli.CommandLine.Option;
import snick.cli.terminal.Refusal;
import snick.force.reading.RigSetting;
import snick.quantity.SampleRate;

/** The rig and its setting, typed in where no rig is there to ask. */
final class SettingChoice {
  @Option(
      names = "--rig",
      paramLabel = "ID",
      required = true,
      description = "Id of the rig, as 'snick ports' shows it.")
  private String deviceId;

  @Option(
      names = "--gain",
      paramLabel = "N",
      defaultValue = "128",
      description = "Gain of the amplifier (default: ${DEFAULT-VALUE}).")
  private int gain;

  @Option(
      names = "--rate",
      paramLabel = "HZ",
      defaultValue = "80",
      description = "Nominal samples per second (default: ${DEFAULT-VALUE}).")
  private double rateHertz;

  @Option(
      names = "--polarity",
      paramLabel = "SIGN",
      defaultValue = "1",
      description = "1 if load raises the reading, -1 if it lowers it (default: ${DEFAULT-VALUE}).")
  private int polarity;

  /** As typed. */
  RigSetting setting() {
    return Refusal.ifNotAccepted(
        () -> new RigSetting(deviceId, gain, new SampleRate(rateHertz), polarity),
        why -> Refusal.badInput(why + "; see --rig, --gain, --rate, --polarity"));
  }
}
