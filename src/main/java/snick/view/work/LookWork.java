package snick.view.work;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import snick.force.check.CheckResult;
import snick.force.check.RigCheck;
import snick.frame.message.Hello;
import snick.frame.message.Tally;
import snick.json.Json;
import snick.live.RigState;
import snick.phrase.NotAccepted;
import snick.phrase.Phrase;
import snick.phrase.Words;
import snick.quantity.SampleRate;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.view.bench.Bench;

/** A look at a rig at rest from the page: as {@code snick doctor}. */
public final class LookWork implements RigWork {
  private final Bench bench;
  private final Supplier<RigState> rig;
  private final double seconds;
  private final Tally before;
  private final RigCheck check = new RigCheck();
  private boolean begun;
  private long firstNanos;
  private long lastNanos;
  private Optional<List<CheckResult>> findings = Optional.empty();
  private Optional<Phrase> failed = Optional.empty();

  /** Looks for so many seconds of the rig's time. */
  public LookWork(Bench bench, Supplier<RigState> rig, double seconds) {
    this.bench = bench;
    this.rig = rig;
    this.seconds = seconds;
    this.before = rig.get().traffic().tally();
  }

  private synchronized void passed(long deviceNanos) {
    firstNanos = begun ? firstNanos : deviceNanos;
    begun = true;
    lastNanos = deviceNanos;
  }

  private boolean seenEnough() {
    return (lastNanos - firstNanos) / 1e9 >= seconds;
  }

  @Override
  public synchronized void sample(long deviceNanos, int counts) {
    passed(deviceNanos);
    check.sample(deviceNanos, counts);
  }

  @Override
  public synchronized void overrange(long deviceNanos, Rail rail) {
    passed(deviceNanos);
    check.overrange(deviceNanos, rail);
  }

  @Override
  public synchronized void gap(Gap gap) {
    check.gap(gap);
  }

  @Override
  public void end() {}

  @Override
  public void confirm() {}

  @Override
  public synchronized boolean done() {
    return findings.isPresent() || failed.isPresent();
  }

  @Override
  public synchronized void follow() {
    if (done() || !seenEnough()) {
      return;
    }
    try {
      findings = Optional.of(check.findings(known(rig.get())));
    } catch (NotAccepted e) {
      failed = Optional.of(e.why());
    }
  }

  private RigCheck.Circumstances known(RigState now) {
    Tally tally = now.traffic().tally();
    return new RigCheck.Circumstances(
        now.hello()
            .map(Hello::nominalRateMilliHertz)
            .filter(rate -> rate > 0)
            .map(rate -> new SampleRate(rate / 1000.0)),
        bench.calibration(now.rig()),
        now.clock().errorPpm(),
        good(tally) - good(before),
        bad(tally) - bad(before));
  }

  private static long good(Tally tally) {
    return tally.good();
  }

  private static long bad(Tally tally) {
    return tally.thrownAway().damaged();
  }

  @Override
  public boolean leavesMass() {
    return false;
  }

  @Override
  public synchronized Map<String, Object> json() {
    return Json.object(
        "work",
        "look",
        "phase",
        done() ? "finished" : "looking",
        "seconds",
        Math.min(seconds, (lastNanos - firstNanos) / 1e9),
        "of_seconds",
        seconds,
        "findings",
        findings.map(found -> found.stream().map(this::finding).toList()),
        "failed",
        failed.map(bench.preferences().words()::say));
  }

  private Map<String, Object> finding(CheckResult finding) {
    Words words = bench.preferences().words();
    return Json.object(
        "check", finding.check().word(),
        "grade", finding.grade().word(),
        "measured", words.say(finding.measured()),
        "expected", words.say(finding.expected()),
        "meaning", words.say(finding.meaning()),
        "remedy", finding.remedy().map(words::say));
  }
}
