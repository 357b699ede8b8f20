package snick.frame;

import java.util.OptionalInt;

/**
 * How a device is doing; sent about once a second.
 *
 * @param deviceMicros device clock, µs, 32 bits unsigned, wraps after 71.6 min
 * @param temperatureCentiCelsius temperature beside the converter, 0.01 °C; empty if not measured
 * @param supplyMilliVolts bridge supply, mV; empty if not measured
 * @param droppedSamples samples that the device could not send since its reset
 * @param overrangeSamples samples at a rail since its reset
 * @param resetCause why the device last started
 */
public record Status(
    long deviceMicros,
    OptionalInt temperatureCentiCelsius,
    OptionalInt supplyMilliVolts,
    long droppedSamples,
    long overrangeSamples,
    ResetCause resetCause) {
  /** Why a device last started. The order is the code on the wire. */
  public enum ResetCause {
    UNKNOWN,
    POWER_ON,
    EXTERNAL,
    BROWN_OUT,
    WATCHDOG,
    SOFTWARE
  }
}
