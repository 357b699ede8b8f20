package snick.frame.message;

import java.util.Locale;
import java.util.Objects;

/**
 * A device says who it is and how it is set. First message after reset and after 'ask hello'.
 *
 * @param protocolVersion version of the wire protocol, 1 to 255
 * @param deviceId 64-bit identity of the device, the same at every start
 * @param firmware name and version of the firmware, at most 32 bytes of UTF-8, untrusted text
 * @param converterBits resolution of the converter, 8 to 24 bits
 * @param gain gain of the bridge amplifier, 1 to 65535
 * @param nominalRateMilliHertz nominal output rate, mHz, 1 to 100 000 000
 * @param inputRangeNanoVolts input voltage at the highest code, nV; 0 if unknown
 */
public record Hello(
    int protocolVersion,
    long deviceId,
    String firmware,
    int converterBits,
    int gain,
    long nominalRateMilliHertz,
    long inputRangeNanoVolts) {
  public Hello {
    Objects.requireNonNull(firmware);
    Limits.check("protocol version", protocolVersion, 1, Limits.MAX_U8);
    Limits.check("converter bits", converterBits, 8, 24);
    Limits.check("gain", gain, 1, Limits.MAX_U16);
    Limits.check("rate in mHz", nominalRateMilliHertz, 1, Wire.MAX_RATE_MILLI_HERTZ);
    Limits.check("input range in nV", inputRangeNanoVolts, 0, Limits.MAX_U32);
  }

  /** The device id as 16 hexadecimal digits, for example {@code 00a1b2c3d4e5f607}. */
  public String deviceIdText() {
    return String.format(Locale.ROOT, "%016x", deviceId);
  }
}
