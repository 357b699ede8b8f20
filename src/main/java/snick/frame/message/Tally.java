package snick.frame.message;

/**
 * What a decoder accepted and threw away since it was made. Snapshot, immutable.
 *
 * @param goodFrames binary frames decoded
 * @param goodLines text lines that were readings or announcements
 * @param samples readings handed on
 * @param comments comment lines
 * @param roundedReadings text readings with more decimals than the stream's unit keeps
 * @param thrownAway what was not taken
 */
public record Tally(
    long goodFrames,
    long goodLines,
    long samples,
    long comments,
    long roundedReadings,
    ThrownAway thrownAway) {
  /** Nothing seen yet. */
  public static final Tally NONE = new Tally(0, 0, 0, 0, 0, new ThrownAway(0, 0, 0, 0, 0));

  /** Frames and lines that were taken. */
  public long good() {
    return goodFrames + goodLines;
  }

  /**
   * What was thrown away.
   *
   * @param badChecks frames whose CRC, or lines whose checksum, did not match
   * @param malformed frames or lines of a wrong form
   * @param unknownTypes frames of a type this version does not know (CRC good)
   * @param tooLong frames or lines longer than allowed
   * @param bytes bytes of them; delimiters, and the line feeds of refused lines, not counted
   */
  public record ThrownAway(
      long badChecks, long malformed, long unknownTypes, long tooLong, long bytes) {
    /** Frames and lines that no version of a device should send. */
    public long damaged() {
      return badChecks + malformed + tooLong;
    }
  }
}
