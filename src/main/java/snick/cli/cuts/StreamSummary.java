package snick.cli.cuts;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snick.cli.terminal.PlainText;
import snick.daemon.Pipeline;
import snick.frame.Form;
import snick.frame.message.Tally;
import snick.sample.StreamFacts;

/** What a stream was and what happened to it, for people. */
final class StreamSummary {
  private StreamSummary() {}

  static void print(PrintWriter out, Pipeline pipeline, long events) {
    StreamFacts facts = pipeline.stream().facts();
    out.println();
    out.printf(
        Locale.ROOT,
        "%d %s in %d samples, %.1f s at %.2f samples per second (%s).%n",
        events,
        events == 1 ? "event" : "events",
        facts.samples(),
        pipeline.stream().lastNanos() / 1e9,
        1e9 / pipeline.stream().periodNanos(),
        form(pipeline));
    List<String> troubles = troubles(facts, pipeline.tally(), first(pipeline));
    troubles.forEach(trouble -> out.println("  " + trouble));
    if (pipeline.form().equals(Optional.of(Form.TEXT))) {
      out.println("  Text cannot show every loss: lines may be missing or altered unseen.");
    }
  }

  private static String first(Pipeline pipeline) {
    return pipeline
        .decoder()
        .refused()
        .map(line -> ", the first: '" + PlainText.inert(line.shown()) + "'")
        .orElse("");
  }

  private static String form(Pipeline pipeline) {
    return pipeline.form().map(f -> f == Form.BINARY ? "binary" : "text").orElse("unknown form");
  }

  private static List<String> troubles(StreamFacts facts, Tally tally, String first) {
    Tally.ThrownAway thrown = tally.thrownAway();
    List<String> lines = new ArrayList<>();
    add(lines, facts.lost().samples(), "sample", "samples", "lost" + places(facts));
    add(lines, facts.restarts(), "restart", "restarts", "of the device");
    add(lines, facts.overrange(), "sample", "samples", "at the end of the converter's range");
    add(lines, facts.clockWraps(), "wrap", "wraps", "of the device's clock, followed");
    add(
        lines,
        facts.timelessSamples(),
        "sample",
        "samples",
        "without time: placed by the nominal rate");
    addOfWire(lines, thrown.badChecks(), "with a wrong checksum, left out");
    addOfWire(lines, thrown.malformed(), "of a wrong form, left out" + first);
    add(lines, thrown.unknownTypes(), "frame", "frames", "of a type unknown here, skipped");
    addOfWire(lines, thrown.tooLong(), "too long, left out");
    return lines;
  }

  private static String places(StreamFacts facts) {
    return ", in " + facts.lost().times() + (facts.lost().times() == 1 ? " place" : " places");
  }

  private static void addOfWire(List<String> lines, long count, String what) {
    add(lines, count, "frame or line", "frames or lines", what);
  }

  private static void add(List<String> lines, long count, String one, String many, String what) {
    if (count > 0) {
      lines.add("%s %s %s".formatted(count, count == 1 ? one : many, what));
    }
  }
}
