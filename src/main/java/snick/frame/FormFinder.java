package snick.frame;

import java.util.Optional;
import snick.frame.binary.FrameStream;
import snick.frame.message.Counters;
import snick.frame.message.FrameSink;
import snick.frame.message.Wire;
import snick.frame.text.LineParser;
import snick.frame.text.LineStream;

/**
 * Tells binary from text while neither is sure. It holds the last bytes, at most one frame's
 * length, so that nothing is lost when the form is found.
 *
 * <p>Binary is sure at the first good frame of a known type. Text is sure at an announcement, at
 * four good reading lines of three characters or more in a row, or when 256 bytes in a row are
 * text: a frame has at most 255 bytes and its type byte is none.
 */
final class FormFinder {
  private static final int CAPACITY = Wire.MAX_ENCODED_BYTES + 1;
  private static final int LINES_TO_BELIEVE = 4;
  private static final int SHORTEST_LINE_TO_BELIEVE = 3;

  private final byte[] held = new byte[CAPACITY];
  private final LineParser parser = new LineParser();
  private final Counters counters;
  private final FrameStream frames;
  private final LineStream lines;

  private int heldBytes;
  private boolean frameBroken;
  private int textFrom;
  private boolean textFromLineStart;
  private int lineFrom;
  private int goodLines;

  private boolean countsBadFrame;
  private Optional<Form> found = Optional.empty();

  /**
   * A finder.
   *
   * @param fromStart whether the first byte to come is the first of a line or frame
   */
  FormFinder(Counters counters, FrameStream frames, LineStream lines, boolean fromStart) {
    this.counters = counters;
    this.frames = frames;
    this.lines = lines;
    this.textFromLineStart = fromStart;
    this.countsBadFrame = fromStart;
  }

  /** The form, once it is sure. */
  Optional<Form> found() {
    return found;
  }

  /** Take bytes up to {@code end}, or up to the byte that settled the form. */
  int accept(byte[] bytes, int at, int end, FrameSink sink) {
    int from = at;
    while (from < end && found.isEmpty()) {
      take(bytes[from++], sink);
    }
    return from;
  }

  private void take(byte b, FrameSink sink) {
    if (b == Wire.DELIMITER) {
      finishFrame(sink);
      return;
    }
    held[heldBytes++] = b;
    if (!isText(b) && !isByteOrderMark()) {
      textFrom = heldBytes;
      textFromLineStart = false;
      lineFrom = heldBytes;
      goodLines = 0;
    } else if (b == '\n') {
      finishLine(sink);
    }
    if (heldBytes == CAPACITY) {
      makeRoom(sink);
    }
  }

  private static boolean isText(byte b) {
    return (b >= ' ' && b <= '~') || b == '\n' || b == '\r' || b == '\t' || b < 0;
  }

  /** Whether the stream began with what may be the mark that some programs put before UTF-8. */
  private boolean isByteOrderMark() {
    return textFromLineStart
        && textFrom == 0
        && heldBytes <= LineParser.BYTE_ORDER_MARK_BYTES
        && LineParser.isByteOrderMark(held, 0, heldBytes);
  }

  private void finishFrame(FrameSink sink) {
    boolean good = false;
    if (!frameBroken && heldBytes > 0 && (countsBadFrame || frames.isIntact(held, heldBytes))) {
      good = frames.frame(held, 0, heldBytes, sink);
    } else {
      counters.skippedBytes += heldBytes;
    }
    begin(false);
    if (good) {
      found = Optional.of(Form.BINARY);
    }
  }

  /** Begin behind a delimiter, or inside a frame that is already known to be too long. */
  private void begin(boolean broken) {
    heldBytes = 0;
    textFrom = 0;
    lineFrom = 0;
    goodLines = 0;
    textFromLineStart = false;
    frameBroken = broken;
    countsBadFrame = true;
  }

  private void finishLine(FrameSink sink) {
    boolean whole = lineFrom > textFrom || textFromLineStart || held[lineFrom] == '#';
    int length = heldBytes - 1 - lineFrom;
    LineParser.Kind kind = parser.parse(held, lineFrom, heldBytes - 1);
    lineFrom = heldBytes;
    if (!whole) {
      return;
    }
    switch (kind) {
      case ANNOUNCEMENT -> beginText(sink);
      case READING, TIMED_READING -> {
        goodLines += length >= SHORTEST_LINE_TO_BELIEVE ? 1 : 0;
        if (goodLines == LINES_TO_BELIEVE) {
          beginText(sink);
        }
      }
      case MALFORMED, BAD_CHECK -> goodLines = 0;
      case BLANK, COMMENT -> {}
    }
  }

  private void makeRoom(FrameSink sink) {
    if (textFrom == 0) {
      beginText(sink);
      return;
    }
    if (!frameBroken && countsBadFrame) {
      counters.tooLong++;
    }
    frameBroken = true;
    counters.skippedBytes += textFrom;
    heldBytes -= textFrom;
    System.arraycopy(held, textFrom, held, 0, heldBytes);
    lineFrom -= textFrom;
    textFrom = 0;
  }

  private void beginText(FrameSink sink) {
    counters.skippedBytes += textFrom;
    if (!textFromLineStart) {
      lines.expectRestOfLine();
    }
    lines.accept(held, textFrom, heldBytes, sink);
    begin(false);
    found = Optional.of(Form.TEXT);
  }

  /** Look again, behind a zero byte. */
  void lookAgain() {
    begin(false);
    found = Optional.empty();
  }

  /** Look again, inside a frame that became too long. */
  void lookAgainInBrokenFrame() {
    begin(true);
    found = Optional.empty();
  }

  /** Look again, anywhere in a new stream; what is held is lost. */
  void lookAgainMidway() {
    counters.skippedBytes += heldBytes;
    begin(false);
    countsBadFrame = false;
    found = Optional.empty();
  }

  /** The stream is over: what began as text is text, however short. */
  void end(FrameSink sink) {
    if (heldBytes > 0 && textFrom == 0 && textFromLineStart) {
      beginText(sink);
      return;
    }
    counters.skippedBytes += heldBytes;
    begin(false);
  }
}
