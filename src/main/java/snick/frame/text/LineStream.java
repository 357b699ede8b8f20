package snick.frame.text;

import java.util.Optional;
import snick.frame.message.Counters;
import snick.frame.message.FrameSink;
import snick.frame.message.ReadingBatch;
import snick.frame.message.UntrustedText;

/** The text form: cuts the stream at line feeds, checks each line, hands its reading on. */
public final class LineStream {
  /** Longest line of the protocol, its line end not counted. */
  static final int MAX_LINE_BYTES = 128;

  /** Longest line in columns. */
  static final int MAX_COLUMNS_BYTES = 512;

  /** After so many lines of another form in a row the sender is believed to have changed. */
  private static final int REFUSED_TO_LOOK_AGAIN = 16;

  /** After so many good lines without checksum in a row, none is expected any more. */
  private static final int UNCHECKED_LINES_TO_BELIEVE = 16;

  private final byte[] held;
  private final TextRule rule;
  private final LineParser parser = new LineParser();
  private Optional<LineSamples> samples = Optional.empty();
  private Optional<ColumnsTold> told = Optional.empty();
  private Optional<RefusedLine> refused = Optional.empty();
  private boolean asked;
  private int refusedInARow;
  private final PlainLines plainLines = new PlainLines();
  private final ReadingBatch batch = new ReadingBatch();
  private final StreamUnit unit = new StreamUnit();
  private final Counters counters;
  private int heldBytes;
  private boolean skipping;
  private boolean mayBeRest;
  private boolean zeroMet;
  private boolean readingMet;
  private boolean checksumExpected;
  private int uncheckedInARow;

  public LineStream(Counters counters, TextRule rule) {
    this.counters = counters;
    this.rule = rule;
    this.held = new byte[rule instanceof TextRule.AsProtocol ? MAX_LINE_BYTES : MAX_COLUMNS_BYTES];
    lookAgain();
  }

  private void lookAgain() {
    told = Optional.empty();
    asked = false;
    refusedInARow = 0;
    samples = rule.findsOut() ? Optional.of(new LineSamples()) : Optional.empty();
    parser.columns(
        rule instanceof TextRule.Named named
            ? Optional.of(new ColumnReader(named.columns()))
            : Optional.empty());
  }

  /** In what columns lines are read; empty while they are not, or as the protocol asks. */
  public Optional<Columns> columns() {
    return rule instanceof TextRule.Named named
        ? Optional.of(named.columns())
        : told.flatMap(ColumnsTold::columns);
  }

  /** What the columns were taken for, one line for people; empty if they were not found out. */
  public Optional<String> recognition() {
    return told.map(ColumnsTold::words);
  }

  /** The first line refused for its form. */
  public Optional<RefusedLine> refused() {
    return refused;
  }

  /** What comes next may be the rest of a line: skip it, unless it begins as announcements do. */
  public void expectRestOfLine() {
    mayBeRest = true;
  }

  /** Whether {@link #accept} stopped behind a zero byte, which is no text. */
  public boolean stoppedAtZero() {
    return zeroMet;
  }

  /** Take bytes up to {@code end}, or up to and with a zero byte. */
  public int accept(byte[] bytes, int at, int end, FrameSink sink) {
    zeroMet = false;
    int from = at;
    if (mayBeRest && from < end) {
      skipping = bytes[from] != '#';
      mayBeRest = false;
    }
    while (from < end && !zeroMet) {
      from = plain(bytes, from, end, sink);
      int stop = crEnds() ? indexOfEnd(bytes, from, end) : indexOfStop(bytes, from, end);
      if (stop == end) {
        hold(bytes, from, end);
        return end;
      }
      if (bytes[stop] != 0) {
        finishLine(bytes, from, stop, sink);
      } else {
        zeroMet = true;
        spoilLine(bytes, from, stop);
      }
      from = stop + 1;
    }
    return from;
  }

  /** Takes what plain lines begin here; behind them. */
  private int plain(byte[] bytes, int at, int end, FrameSink sink) {
    if (samples.isPresent()
        || parser.inColumns()
        || heldBytes > 0
        || skipping
        || checksumExpected
        || !unit.isOne()) {
      return at;
    }
    int from = at;
    batch.clear();
    int next = plainLines.read(bytes, from, end, batch);
    while (next > from) {
      handOn(batch, sink);
      from = next;
      batch.clear();
      next = plainLines.read(bytes, from, end, batch);
    }
    return from;
  }

  private void handOn(ReadingBatch batch, FrameSink sink) {
    counters.goodLines += batch.size();
    counters.samples += batch.size();
    readingMet = true;
    unit.wholeOnes();
    sink.readings(batch);
  }

  /** Some sketches end their lines with a carriage return alone. */
  private boolean crEnds() {
    return !(rule instanceof TextRule.AsProtocol);
  }

  private static int indexOfEnd(byte[] bytes, int from, int end) {
    int at = from;
    while (at < end && bytes[at] != '\n' && bytes[at] != '\r' && bytes[at] != 0) {
      at++;
    }
    return at;
  }

  private static int indexOfStop(byte[] bytes, int from, int end) {
    int at = from;
    while (at < end && bytes[at] != '\n' && bytes[at] != 0) {
      at++;
    }
    return at;
  }

  private void finishLine(byte[] bytes, int from, int stop, FrameSink sink) {
    if (heldBytes == 0 && !skipping && stop - from <= held.length) {
      line(bytes, from, stop, sink);
      return;
    }
    hold(bytes, from, stop);
    if (!skipping) {
      line(held, 0, heldBytes, sink);
    }
    heldBytes = 0;
    skipping = false;
  }

  private void hold(byte[] bytes, int from, int end) {
    int more = end - from;
    if (skipping) {
      counters.skippedBytes += more;
    } else if (heldBytes + more > held.length) {
      counters.tooLong++;
      counters.skippedBytes += heldBytes + more;
      heldBytes = 0;
      skipping = true;
    } else {
      System.arraycopy(bytes, from, held, heldBytes, more);
      heldBytes += more;
    }
  }

  private void spoilLine(byte[] bytes, int from, int stop) {
    hold(bytes, from, stop);
    if (heldBytes > 0) {
      counters.malformed++;
    }
    counters.skippedBytes += heldBytes;
    heldBytes = 0;
    skipping = true;
  }

  private void line(byte[] bytes, int from, int end, FrameSink sink) {
    LineParser.Kind kind = parser.parse(bytes, from, end);
    if (samples.isPresent() && kind == LineParser.Kind.COMMENT) {
      samples.get().comment(bytes, from, end);
    }
    if (samples.isEmpty() || !tellsOfColumns(kind)) {
      line(kind, bytes, from, end, sink);
      return;
    }
    if (asked) {
      refuseForm(end - from);
      return;
    }
    samples.get().hold(bytes, from, end);
    if (kind != LineParser.Kind.MALFORMED && parser.checked()) {
      decide(ColumnsTold.PROTOCOL, sink);
    } else {
      tell(sink);
    }
  }

  private static boolean tellsOfColumns(LineParser.Kind kind) {
    return switch (kind) {
      case READING, TIMED_READING, MALFORMED -> true;
      case BLANK, COMMENT, ANNOUNCEMENT, BAD_CHECK -> false;
    };
  }

  /** Decides by the lines held, if that can be done by now, and reads them. */
  private void tell(FrameSink sink) {
    LineSamples held = samples.orElseThrow();
    Optional<ColumnsTold> now = held.told();
    if (now.isPresent() || held.full()) {
      decide(now.orElseGet(held::untold), sink);
    }
  }

  private void decide(ColumnsTold now, FrameSink sink) {
    LineSamples seen = samples.orElseThrow();
    if (now.columns().isEmpty()) {
      refuse(seen.typical(), now);
      asked |= !now.options().isEmpty();
      samples = Optional.of(new LineSamples());
      seen.lines().forEach(line -> refuseForm(line.length));
      return;
    }
    samples = Optional.empty();
    if (!now.isProtocol()) {
      told = Optional.of(now);
      ColumnReader reader = new ColumnReader(now.columns().get());
      reader.learn(seen.last(), now.separator());
      parser.columns(Optional.of(reader));
      seen.preamble().forEach(line -> malformed(line, 0, line.length));
    }
    for (byte[] line : now.isProtocol() ? seen.lines() : seen.rows()) {
      line(parser.parse(line, 0, line.length), line, 0, line.length, sink);
    }
  }

  private void refuse(byte[] line, ColumnsTold why) {
    if (refused.isEmpty()) {
      refused =
          Optional.of(
              new RefusedLine(UntrustedText.of(line, 0, line.length), why.reason(), why.options()));
    }
  }

  private void line(LineParser.Kind kind, byte[] bytes, int from, int end, FrameSink sink) {
    switch (kind) {
      case READING -> reading(false, end - from, sink);
      case TIMED_READING -> reading(true, end - from, sink);
      case BLANK -> {}
      case COMMENT -> counters.comments++;
      case ANNOUNCEMENT -> {
        counters.goodLines++;
        sink.announcement(parser.key(), parser.value());
      }
      case BAD_CHECK -> refuseCheck(end - from);
      case MALFORMED -> malformed(bytes, from, end);
    }
  }

  private void malformed(byte[] bytes, int from, int end) {
    if (!readingMet && LineParser.looksLikeHeading(bytes, from, end)) {
      counters.comments++;
      return;
    }
    refuseForm(end - from);
    if (refused.isEmpty()) {
      refused =
          Optional.of(RefusedLine.among(UntrustedText.of(bytes, from, end - from), columns()));
    }
    if (rule.findsOut() && ++refusedInARow == REFUSED_TO_LOOK_AGAIN) {
      lookAgain();
    }
  }

  private void refuseForm(int length) {
    counters.malformed++;
    counters.skippedBytes += length;
  }

  private void refuseCheck(int length) {
    counters.badChecks++;
    counters.skippedBytes += length;
  }

  private void reading(boolean timed, int length, FrameSink sink) {
    refusedInARow = 0;
    if (lacksChecksum()) {
      refuseCheck(length);
    } else if (unit.suits(parser.reading())) {
      handOn(timed, sink);
    } else {
      refuseForm(length);
    }
  }

  private boolean lacksChecksum() {
    if (parser.checked()) {
      checksumExpected = true;
      uncheckedInARow = 0;
    } else if (checksumExpected && ++uncheckedInARow == UNCHECKED_LINES_TO_BELIEVE) {
      checksumExpected = false;
    }
    return checksumExpected && !parser.checked();
  }

  private void handOn(boolean timed, FrameSink sink) {
    int counts = unit.told(parser.reading(), sink);
    counters.goodLines++;
    counters.samples++;
    readingMet = true;
    if (parser.reading().rounded()) {
      counters.roundedReadings++;
    }
    if (timed) {
      sink.reading(parser.micros(), counts);
    } else {
      sink.reading(counts);
    }
  }

  /** Hand on a last line that has no line feed. */
  public void end(FrameSink sink) {
    if (!skipping && heldBytes > 0) {
      line(held, 0, heldBytes, sink);
    }
    heldBytes = 0;
    skipping = false;
    if (samples.isPresent() && !samples.get().lines().isEmpty()) {
      decide(samples.get().atLast(refused.isEmpty()), sink);
    }
  }

  /** Forget a line begun, and what was learnt of the sender; the next line may be a rest. */
  public void forget() {
    counters.skippedBytes += heldBytes;
    heldBytes = 0;
    samples.ifPresent(held -> held.lines().forEach(line -> refuseForm(line.length)));
    lookAgain();
    mayBeRest = true;
    readingMet = false;
    checksumExpected = false;
    uncheckedInARow = 0;
    unit.forget();
  }
}
