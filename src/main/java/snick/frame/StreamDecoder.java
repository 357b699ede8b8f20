package snick.frame;

import java.util.Objects;
import java.util.Optional;
import snick.frame.binary.FrameStream;
import snick.frame.message.Counters;
import snick.frame.message.FrameSink;
import snick.frame.message.Tally;
import snick.frame.message.Wire;
import snick.frame.text.Columns;
import snick.frame.text.LineStream;
import snick.frame.text.RefusedLine;
import snick.frame.text.TextRule;

/**
 * Turns a device's bytes into messages and readings, as firmware-protocol.md gives them. Streaming:
 * bytes may come in pieces of any size, the outcome is the same. After any garbage all good frames
 * (lines) that follow, but at most the first, are decoded; what was thrown away is counted. Memory
 * is bounded whatever comes in; samples are decoded without allocation. Not for several threads.
 *
 * <p>Unless told the form, it finds out: see {@link #recognised}. A form taken up wrongly is given
 * up: text at the first zero byte, binary at 256 bytes without one.
 */
public final class StreamDecoder {
  /** Where in the stream the first byte stands. */
  public enum Start {
    /** The first byte begins a line or a frame: a file, a log, a pipe. */
    AT_BEGINNING,
    /** The device may have been sending already: the first line may be the rest of one. */
    MIDWAY
  }

  private final Counters counters = new Counters();
  private final FrameStream frames;
  private final LineStream lines;
  private final FormFinder finder;
  private final boolean findsForm;
  private final byte[] leftOver = new byte[Wire.MAX_ENCODED_BYTES];
  private Optional<Form> form;

  private StreamDecoder(Optional<Form> form, TextRule rule, Start start) {
    this.lines = new LineStream(counters, rule);
    this.findsForm = form.isEmpty();
    this.form = form;
    this.frames = new FrameStream(counters, findsForm);
    this.finder = new FormFinder(counters, frames, lines, start == Start.AT_BEGINNING);
    if (start == Start.MIDWAY && !findsForm) {
      lines.expectRestOfLine();
    }
  }

  /** A decoder that finds out the form for itself. */
  public static StreamDecoder ofAnyForm(Start start) {
    Objects.requireNonNull(start);
    return new StreamDecoder(Optional.empty(), new TextRule.AsProtocol(), start);
  }

  /** A decoder that takes the stream for the given form whatever it sees. */
  public static StreamDecoder of(Form form, Start start) {
    Objects.requireNonNull(start);
    return new StreamDecoder(Optional.of(form), new TextRule.AsProtocol(), start);
  }

  /**
   * A decoder of text lines by {@code rule}.
   *
   * @param form empty: it finds out the form for itself
   */
  public static StreamDecoder of(Optional<Form> form, TextRule rule, Start start) {
    return new StreamDecoder(form, rule, start);
  }

  /**
   * Take bytes; whatever they complete goes to the sink before this returns, then {@link
   * FrameSink#flush}.
   *
   * @throws IndexOutOfBoundsException if the range is not inside the buffer
   */
  public void accept(byte[] buffer, int offset, int length, FrameSink sink) {
    Objects.checkFromIndexSize(offset, length, buffer.length);
    Objects.requireNonNull(sink);
    take(buffer, offset, offset + length, sink);
    sink.flush();
  }

  private void take(byte[] buffer, int from, int end, FrameSink sink) {
    int at = from;
    while (at < end) {
      at = step(buffer, at, end, sink);
    }
  }

  private int step(byte[] bytes, int at, int end, FrameSink sink) {
    if (form.isEmpty()) {
      int next = finder.accept(bytes, at, end, sink);
      form = finder.found();
      return next;
    }
    return form.get() == Form.BINARY ? binary(bytes, at, end, sink) : text(bytes, at, end, sink);
  }

  private int binary(byte[] bytes, int at, int end, FrameSink sink) {
    int next = frames.accept(bytes, at, end, sink);
    if (next < end) {
      form = Optional.empty();
      finder.lookAgainInBrokenFrame();
      int leftOverBytes = frames.takeHeld(leftOver);
      take(leftOver, 0, leftOverBytes, sink);
    }
    return next;
  }

  private int text(byte[] bytes, int at, int end, FrameSink sink) {
    int next = lines.accept(bytes, at, end, sink);
    if (findsForm && lines.stoppedAtZero()) {
      form = Optional.empty();
      finder.lookAgain();
    }
    return next;
  }

  /**
   * The input is over and known to be whole: a last line without line feed is a line too. Not for a
   * lost link, where it may be half a number.
   */
  public void end(FrameSink sink) {
    Objects.requireNonNull(sink);
    if (form.isEmpty()) {
      finder.end(sink);
      form = finder.found();
    }
    lines.end(sink);
    frames.forget();
    sink.flush();
  }

  /**
   * The link was lost and opened again, perhaps to another device: forget what was half received,
   * find the form again, expect to come in midway. The tally goes on.
   */
  public void linkReopened() {
    frames.forget();
    lines.forget();
    finder.lookAgainMidway();
    if (findsForm) {
      form = Optional.empty();
    }
  }

  /** The form in which the stream is being read; empty while it is not sure. */
  public Optional<Form> recognised() {
    return form;
  }

  /** In what columns text is read; empty while it is not, or as the protocol asks. */
  public Optional<Columns> columns() {
    return lines.columns();
  }

  /** What the columns of the text were taken for, one line for people; empty if not found out. */
  public Optional<String> recognition() {
    return lines.recognition();
  }

  /** Why nothing was read of what is over, as said after its name. */
  public String whyNoReadings() {
    return refused()
        .map(line -> ": " + line.words())
        .orElse(" holds no samples; see firmware-protocol.md for the forms that are read");
  }

  /** The first text line that was refused for its form. */
  public Optional<RefusedLine> refused() {
    return lines.refused();
  }

  /** What was accepted and thrown away so far. */
  public Tally tally() {
    return counters.snapshot();
  }
}
