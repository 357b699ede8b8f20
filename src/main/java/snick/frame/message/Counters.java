package snick.frame.message;

/** The running numbers behind a {@link Tally}. */
public final class Counters {
  public long goodFrames;
  public long goodLines;
  public long samples;
  public long badChecks;
  public long malformed;
  public long unknownTypes;
  public long tooLong;
  public long comments;
  public long skippedBytes;
  public long roundedReadings;

  public Tally snapshot() {
    return new Tally(
        goodFrames,
        goodLines,
        samples,
        comments,
        roundedReadings,
        new Tally.ThrownAway(badChecks, malformed, unknownTypes, tooLong, skippedBytes));
  }
}
