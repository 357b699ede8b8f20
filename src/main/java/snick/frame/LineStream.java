package snick.frame;

/** The text form: cuts the stream at line feeds, checks each line, hands its reading on. */
final class LineStream {
  /** Longest line, its line end not counted. */
  static final int MAX_LINE_BYTES = 128;

  /** After so many good lines without checksum in a row, none is expected any more. */
  private static final int UNCHECKED_LINES_TO_BELIEVE = 16;

  private final byte[] held = new byte[MAX_LINE_BYTES];
  private final LineParser parser = new LineParser();
  private final PlainLines plainLines = new PlainLines();
  private final ReadingBatch batch = new ReadingBatch();
  private final Counters counters;
  private int heldBytes;
  private boolean skipping;
  private boolean mayBeRest;
  private boolean zeroMet;
  private boolean readingMet;
  private boolean checksumExpected;
  private int uncheckedInARow;
  private int digits;
  private int saidDigits;
  private boolean decimal;
  private int misfits;

  LineStream(Counters counters) {
    this.counters = counters;
  }

  /** What comes next may be the rest of a line: skip it, unless it begins as announcements do. */
  void expectRestOfLine() {
    mayBeRest = true;
  }

  /** Whether {@link #accept} stopped behind a zero byte, which is no text. */
  boolean stoppedAtZero() {
    return zeroMet;
  }

  /** Take bytes up to {@code end}, or up to and with a zero byte. */
  int accept(byte[] bytes, int at, int end, FrameSink sink) {
    zeroMet = false;
    int from = at;
    if (mayBeRest && from < end) {
      skipping = bytes[from] != '#';
      mayBeRest = false;
    }
    while (from < end && !zeroMet) {
      from = plain(bytes, from, end, sink);
      int stop = indexOfStop(bytes, from, end);
      if (stop == end) {
        hold(bytes, from, end);
        return end;
      }
      if (bytes[stop] == '\n') {
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
    if (heldBytes > 0 || skipping || checksumExpected || digits != 0 || saidDigits != 0) {
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
    misfits = 0;
    sink.readings(batch);
  }

  private static int indexOfStop(byte[] bytes, int from, int end) {
    int at = from;
    while (at < end && bytes[at] != '\n' && bytes[at] != 0) {
      at++;
    }
    return at;
  }

  private void finishLine(byte[] bytes, int from, int stop, FrameSink sink) {
    if (heldBytes == 0 && !skipping && stop - from <= MAX_LINE_BYTES) {
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
    } else if (heldBytes + more > MAX_LINE_BYTES) {
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
    switch (parser.parse(bytes, from, end)) {
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
    } else {
      refuseForm(end - from);
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
    if (lacksChecksum()) {
      refuseCheck(length);
    } else if (unitSuits()) {
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

  /**
   * Whether the reading can be told in the stream's unit, which is chosen at the first reading with
   * a point, and again at the second reading in a row that does not fit.
   */
  private boolean unitSuits() {
    DecimalReading reading = parser.reading();
    boolean firstPoint = reading.hasPoint() && !decimal;
    if (!firstPoint && reading.fits(digits)) {
      misfits = 0;
      return true;
    }
    misfits = firstPoint ? 0 : misfits + 1;
    boolean choose = firstPoint || (decimal && misfits > 1);
    int chosen = reading.suitableDigits();
    if (!choose || !reading.fits(chosen)) {
      return false;
    }
    misfits = 0;
    decimal = true;
    digits = chosen;
    return true;
  }

  private void handOn(boolean timed, FrameSink sink) {
    if (digits != saidDigits) {
      saidDigits = digits;
      sink.decimals(digits);
    }
    int counts = (int) parser.reading().inUnits(digits);
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
  void end(FrameSink sink) {
    if (!skipping && heldBytes > 0) {
      line(held, 0, heldBytes, sink);
    }
    heldBytes = 0;
    skipping = false;
  }

  /** Forget a line begun, and what was learnt of the sender; the next line may be a rest. */
  void forget() {
    counters.skippedBytes += heldBytes;
    heldBytes = 0;
    mayBeRest = true;
    readingMet = false;
    checksumExpected = false;
    uncheckedInARow = 0;
    decimal = false;
    digits = 0;
    misfits = 0;
  }
}
