package snick.virtualrig.device;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Locale;
import snick.virtualrig.settings.ConverterSettings;
import snick.virtualrig.settings.RigSettings;
import snick.virtualrig.settings.TextForm;

/** A simple sketch that prints one line for each reading and does not listen. Pure. */
public final class SketchTwin implements Firmware {
  private static final long ANNOUNCEMENT_NANOS = 120_000_000_000L;

  private final RigSettings rig;
  private final TextForm form;
  private final MicrosecondCounter clock;
  private final Uart uart;
  private DeviceIdentity identity;
  private long nextAnnouncementNanos;

  public SketchTwin(
      RigSettings rig,
      DeviceIdentity identity,
      TextForm form,
      MicrosecondCounter clock,
      Uart uart) {
    this.rig = rig;
    this.identity = identity;
    this.form = form;
    this.clock = clock;
    this.uart = uart;
  }

  @Override
  public void start(DeviceIdentity now, long nanos) {
    identity = now;
    announce();
    nextAnnouncementNanos = nanos + ANNOUNCEMENT_NANOS;
  }

  /** Again and again, for the host may have come in later. */
  private void announce() {
    send("# a sketch that prints its readings", 0);
    send("# firmware=" + rig.device().firmware(), 0);
    send(String.format(Locale.ROOT, "# device=%016x", identity.deviceId()), 0);
    send(String.format(Locale.ROOT, "# rate=%.3f", rig.converter().rate().hertz()), 0);
    send("# gain=" + rig.converter().gain(), 0);
    if (form.decimals() > 0) {
      send("# unit=gf", 0);
    }
  }

  private void send(String line, int samples) {
    String end = form.carriageReturn() ? "\r\n" : "\n";
    byte[] bytes = (line + end).getBytes(StandardCharsets.US_ASCII);
    uart.send(bytes, bytes.length, samples);
  }

  @Override
  public void converted(int counts, long nanos) {
    if (nanos >= nextAnnouncementNanos) {
      nextAnnouncementNanos += ANNOUNCEMENT_NANOS;
      announce();
    }
    String line = (form.withMicros() ? clock.micros(nanos) + "," : "") + reading(counts);
    send(form.withChecksum() ? line + "*" + checksum(line) : line, 1);
  }

  private String reading(int counts) {
    int decimals = form.decimals();
    long units = Math.round(gramForce(counts) * StrictMath.pow(10, decimals));
    return decimals == 0
        ? Integer.toString(counts)
        : BigDecimal.valueOf(units, decimals).toPlainString();
  }

  private double gramForce(int counts) {
    ConverterSettings converter = rig.converter();
    double atReference = counts * (double) ConverterSettings.REFERENCE_GAIN / converter.gain();
    return (atReference - converter.zeroCounts()) / converter.countsPerGramForce();
  }

  /** Exclusive or of all bytes before the star, as in NMEA 0183. */
  private static String checksum(String line) {
    int check = line.chars().reduce(0, (before, next) -> before ^ next);
    return HexFormat.of().withUpperCase().toHexDigits((byte) check);
  }

  @Override
  public void missed(long nanos) {
    // A sketch that waits for a reading prints nothing meanwhile.
  }

  @Override
  public long leftOut() {
    return 0;
  }

  @Override
  public void received(byte[] bytes, int received, long nanos) {
    // A sketch that only prints reads nothing.
  }

  @Override
  public int breakOff(byte[] to) {
    return 0;
  }
}
