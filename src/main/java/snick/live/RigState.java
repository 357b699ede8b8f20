package snick.live;

import java.util.Optional;
import java.util.OptionalDouble;
import snick.frame.message.Hello;
import snick.frame.message.Tally;
import snick.quantity.Worded;
import snick.sample.StreamFacts;

/**
 * How one rig is doing, at one moment. Immutable.
 *
 * @param rig number of the rig, from 0
 * @param port where its bytes come from
 * @param link state of the link
 * @param hello what the device said of itself; empty for text streams
 * @param device what its calibrations, checks and sessions go by; empty until the stream tells
 * @param clock how fast its samples come
 * @param signal what its readings do
 * @param traffic what came over the link
 */
public record RigState(
    int rig,
    String port,
    Link link,
    Optional<Hello> hello,
    Optional<String> device,
    Clock clock,
    Signal signal,
    Traffic traffic) {
  /**
   * Pace of the samples.
   *
   * @param rateHertz samples per second on the device's clock, as measured, nominal until then;
   *     empty while nothing has come
   * @param errorPpm rate error of the device's clock against the host's, parts per million
   */
  public record Clock(OptionalDouble rateHertz, OptionalDouble errorPpm) {}

  /**
   * The readings.
   *
   * @param rest what the rig reads at rest; empty until that is known
   * @param loaded whether an event is under way
   * @param calibrated whether cuts of this rig get a force
   */
  public record Signal(Optional<Rest> rest, boolean loaded, boolean calibrated) {}

  /**
   * What came over the link.
   *
   * @param facts what the stream went through
   * @param tally what the decoder accepted and threw away
   */
  public record Traffic(StreamFacts facts, Tally tally) {}

  /**
   * A rig at rest.
   *
   * @param levelCounts its reading, counts
   * @param noiseCounts standard deviation of one sample, counts
   */
  public record Rest(double levelCounts, double noiseCounts) {}

  /** State of a link. */
  public enum Link implements Worded {
    /** Not opened yet. */
    OPENING,
    /** Never there so far; recorded as soon as it is. */
    AWAITING_RIG,
    /** Open; the device has not said hello. */
    AWAITING_HELLO,
    /** Samples arrive. */
    RECORDING,
    /** Open, but nothing arrives. */
    SILENT,
    /** Unplugged or broken; it is opened again as soon as it is back. */
    LOST,
    /** A file that was read to its end, or stopped. */
    ENDED
  }

  /** A rig of which nothing is known yet. */
  public static RigState opening(int rig, String port) {
    return new RigState(
        rig,
        port,
        Link.OPENING,
        Optional.empty(),
        Optional.empty(),
        new Clock(OptionalDouble.empty(), OptionalDouble.empty()),
        new Signal(Optional.empty(), false, false),
        new Traffic(StreamFacts.NONE, Tally.NONE));
  }

  /** This state, with or without a calibration. */
  public RigState withCalibrated(boolean nowCalibrated) {
    Signal now = new Signal(signal.rest(), signal.loaded(), nowCalibrated);
    return new RigState(rig, port, link, hello, device, clock, now, traffic);
  }
}
