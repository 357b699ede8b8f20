package snick.conformance;

import static snick.conformance.Conversation.MILLI;

import java.util.List;
import java.util.Locale;
import snick.frame.message.Hello;

/**
 * What a device sends without being asked: status and samples.
 *
 * @param talk the line to the device
 * @param findings takes what is found
 */
record StreamChecks(Conversation talk, Findings findings) {
  private static final int STATUSES = 4;
  private static final long LISTEN_NANOS = 7_000 * MILLI;
  private static final long LEAST_STATUS_MICROS = 500_000;
  private static final long MOST_STATUS_MICROS = 1_500_000;
  private static final long LONGEST_BATCH_MILLIS = 25;
  private static final double RATE_TOLERANCE = 0.2;
  private static final long MASK_32 = 0xFFFF_FFFFL;

  /** Listen to a streaming device of these settings. */
  void check(Hello hello) {
    int from = talk.heard().size();
    talk.listen(
        LISTEN_NANOS, () -> talk.heard().since(from, Arrival.Reported.class).size() >= STATUSES);
    status(talk.heard().since(from, Arrival.Reported.class));
    List<Arrival.Samples> batches = talk.heard().since(from, Arrival.Samples.class);
    sequence(batches, talk.heard().since(from, Arrival.Reported.class));
    batches(batches, hello);
    spacing(batches, hello);
  }

  private void status(List<Arrival.Reported> reports) {
    long least = Long.MAX_VALUE;
    long most = 0;
    for (int i = 1; i < reports.size(); i++) {
      long micros = micros(reports.get(i)) - micros(reports.get(i - 1)) & MASK_32;
      least = Math.min(least, micros);
      most = Math.max(most, micros);
    }
    boolean met =
        reports.size() >= STATUSES && least >= LEAST_STATUS_MICROS && most <= MOST_STATUS_MICROS;
    String detail =
        reports.size() < 2
            ? reports.size() + " in 7 s"
            : String.format(Locale.ROOT, "%.3f to %.3f s apart", least / 1e6, most / 1e6);
    findings.judge(Condition.STATUS, met, detail);
  }

  private static long micros(Arrival.Reported report) {
    return report.status().deviceMicros();
  }

  private void sequence(List<Arrival.Samples> batches, List<Arrival.Reported> reports) {
    long missing = 0;
    long samples = 0;
    for (int i = 0; i < batches.size(); i++) {
      samples += batches.get(i).n();
      if (i > 0) {
        missing += batches.get(i).sequence() - batches.get(i - 1).nextSequence() & MASK_32;
      }
    }
    long dropped = droppedDuring(reports);
    findings.judge(
        Condition.SEQUENCE,
        samples > 0 && missing <= dropped,
        samples + " samples, " + missing + " missing, " + dropped + " counted as dropped");
  }

  private static long droppedDuring(List<Arrival.Reported> reports) {
    return reports.isEmpty()
        ? 0
        : reports.get(reports.size() - 1).status().droppedSamples()
            - reports.get(0).status().droppedSamples();
  }

  private void batches(List<Arrival.Samples> batches, Hello hello) {
    int most = batches.stream().mapToInt(Arrival.Samples::n).max().orElse(0);
    boolean met =
        most > 0 && (most - 1) * 1_000_000L <= LONGEST_BATCH_MILLIS * hello.nominalRateMilliHertz();
    findings.judge(Condition.BATCH, met, "at most " + most + " samples in a batch");
  }

  private void spacing(List<Arrival.Samples> batches, Hello hello) {
    Steps steps = Steps.of(batches);
    findings.judge(
        Condition.SPACING,
        steps.near(hello.nominalRateMilliHertz()),
        steps.words(hello.nominalRateMilliHertz()));
  }

  /**
   * Times between samples in a row.
   *
   * @param leastMicros the shortest, µs
   * @param mostMicros the longest, µs; 0 if there are no two in a row
   */
  record Steps(double leastMicros, double mostMicros) {
    static Steps of(List<Arrival.Samples> batches) {
      double least = Double.MAX_VALUE;
      double most = 0;
      for (int i = 0; i < batches.size(); i++) {
        Arrival.Samples batch = batches.get(i);
        if (batch.n() > 1) {
          double step = (double) batch.spanMicros() / (batch.n() - 1);
          least = Math.min(least, step);
          most = Math.max(most, step);
        }
        if (i > 0 && batches.get(i - 1).nextSequence() == batch.sequence()) {
          double step = batch.firstMicros() - batches.get(i - 1).lastMicros() & MASK_32;
          least = Math.min(least, step);
          most = Math.max(most, step);
        }
      }
      return new Steps(least, most);
    }

    /** Whether all are near what a rate says. */
    boolean near(long milliHertz) {
      double nominalMicros = 1e9 / milliHertz;
      return mostMicros > 0
          && leastMicros >= nominalMicros * (1 - RATE_TOLERANCE)
          && mostMicros <= nominalMicros * (1 + RATE_TOLERANCE);
    }

    String words(long milliHertz) {
      return mostMicros == 0
          ? "no two samples in a row"
          : String.format(
              Locale.ROOT,
              "%.0f to %.0f µs apart, nominal %.0f",
              leastMicros,
              mostMicros,
              1e9 / milliHertz);
    }
  }
}
