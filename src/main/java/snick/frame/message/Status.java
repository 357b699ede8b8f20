package snick.frame.message;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * How a device is doing; sent about once a second, streaming or not.
 *
 * @param deviceMicros device clock, µs, 32 bits unsigned, wraps after 71.6 min
 * @param temperatureCentiCelsius temperature beside the converter, 0.01 °C, −327.67 to 327.67 °C;
 *     empty if not measured
 * @param supplyMilliVolts bridge supply, mV, 0 to 65534; empty if not measured
 * @param droppedSamples samples that the device could not send since its reset
 * @param overrangeSamples samples at a rail since its reset
 * @param resetCause why the device last started
 * @param state what the device is doing
 */
public record Status(
    long deviceMicros,
    OptionalInt temperatureCentiCelsius,
    OptionalInt supplyMilliVolts,
    long droppedSamples,
    long overrangeSamples,
    ResetCause resetCause,
    State state) {
  public Status {
    Limits.check("device clock in µs", deviceMicros, 0, Limits.MAX_U32);
    Limits.check("temperature in 0.01 °C", temperatureCentiCelsius.orElse(0), -32_767, 32_767);
    Limits.check("supply in mV", supplyMilliVolts.orElse(0), 0, 65_534);
    Limits.check("dropped samples", droppedSamples, 0, Limits.MAX_U32);
    Limits.check("overrange samples", overrangeSamples, 0, Limits.MAX_U32);
    Objects.requireNonNull(resetCause);
    Objects.requireNonNull(state);
  }

  /** Why a device last started. */
  public enum ResetCause implements Coded {
    UNKNOWN(0),
    POWER_ON(1),
    EXTERNAL(2),
    BROWN_OUT(3),
    WATCHDOG(4),
    SOFTWARE(5);

    private static final ResetCause[] MEANINGS = values();

    private final int code;

    ResetCause(int code) {
      this.code = code;
    }

    /** The byte that stands for it on the wire. */
    @Override
    public int code() {
      return code;
    }

    /** What a byte on the wire stands for; empty if it stands for nothing. */
    public static Optional<ResetCause> ofCode(int code) {
      return Coded.ofCode(code, MEANINGS);
    }
  }

  /** What a device is doing. */
  public enum State implements Coded {
    /** Stopped by the host. */
    IDLE(0),
    /** Sending samples. */
    STREAMING(1),
    /** Would send samples, but the converter gives none. */
    CONVERTER_LOST(2),
    /** The converter gives the same code again and again, more often than noise allows. */
    CONVERTER_STUCK(3);

    private static final State[] MEANINGS = values();

    private final int code;

    State(int code) {
      this.code = code;
    }

    /** The byte that stands for it on the wire. */
    @Override
    public int code() {
      return code;
    }

    /** What a byte on the wire stands for; empty if it stands for nothing. */
    public static Optional<State> ofCode(int code) {
      return Coded.ofCode(code, MEANINGS);
    }
  }
}
