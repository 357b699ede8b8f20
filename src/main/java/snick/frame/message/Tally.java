package snick.frame.message;

/**
 * What a decoder accepted and threw away since it was made. Snapshot, immutable.
 *
 * @param goodFrames binary frames decoded
 * @param goodLines text lines that were readings or announcements
 * @param samples readings handed on
 * @param badChecks frames whose CRC, or lines whose checksum, did not match
 * @param malformed frames or lines of a wrong form
 * @param unknownTypes frames of a type this version does not know (CRC good)
 * @param tooLong frames or lines longer than allowed
 * @param comments comment lines
 * @param skippedBytes bytes thrown away; delimiters, and the line feeds of refused lines, not
 *     counted
 * @param roundedReadings text readings with more decimals than the stream's unit keeps
 */
public record Tally(
    long goodFrames,
    long goodLines,
    long samples,
    long badChecks,
    long malformed,
    long unknownTypes,
    long tooLong,
    long comments,
    long skippedBytes,
    long roundedReadings) {
  /** Nothing seen yet. */
  public static final Tally NONE = new Tally(0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
}
