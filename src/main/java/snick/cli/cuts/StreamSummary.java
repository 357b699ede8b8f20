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
    List<String> lines = new ArrayList<>();
    add(
        lines,
        facts.lost().samples(),
        "sample lost" + places(facts),
        "samples lost" + places(facts));
    add(lines, facts.restarts(), "restart of the device", "restarts of the device");
    add(
        lines,
        facts.overrange(),
        "sample at the end of the converter's range",
        "samples at the end of the converter's range");
    add(
        lines,
        facts.clockWraps(),
        "wrap of the device's clock, followed",
        "wraps of the device's clock, followed");
    add(
        lines,
        facts.timelessSamples(),
        "sample without time: placed by the nominal rate",
        "samples without time: placed by the nominal rate");
    add(
        lines,
        tally.thrownAway().badChecks(),
        "frame or line with a wrong checksum, left out",
        "frames or lines with a wrong checksum, left out");
    add(
        lines,
        tally.thrownAway().malformed(),
        "frame or line of a wrong form, left out" + first,
        "frames or lines of a wrong form, left out" + first);
    add(
        lines,
        tally.thrownAway().unknownTypes(),
        "frame of a type unknown here, skipped",
        "frames of a type unknown here, skipped");
    add(
        lines,
        tally.thrownAway().tooLong(),
        "frame or line too long, left out",
        "frames or lines too long, left out");
    return lines;
  }

  private static String places(StreamFacts facts) {
    return ", in " + facts.lost().times() + (facts.lost().times() == 1 ? " place" : " places");
  }

  private static void add(List<String> lines, long count, String one, String many) {
    if (count > 0) {
      lines.add(count + " " + (count == 1 ? one : many));
    }
  }
}
