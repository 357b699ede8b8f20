package snick.virtualrig.signal;

import snick.quantity.SampleRate;

/** What the firmware can do with the converter it is wired to. */
public interface Amplifier {
  /** Change the output rate; the filter starts empty, as after any such change. */
  void setRate(SampleRate rate);

  /** Change the amplifier's gain. */
  void setGain(int gain);

  /** Temperature beside the converter, 0.01 °C. */
  int temperatureCentiCelsius();
}
