package snick.frame;

/** The running numbers behind a {@link Tally}. */
final class Counters {
  long goodFrames;
  long goodLines;
  long samples;
  long badChecks;
  long malformed;
  long unknownTypes;
  long tooLong;
  long comments;
  long skippedBytes;
  long roundedReadings;

  Tally snapshot() {
    return new Tally(
        goodFrames,
        goodLines,
        samples,
        badChecks,
        malformed,
        unknownTypes,
        tooLong,
        comments,
        skippedBytes,
        roundedReadings);
  }
}
