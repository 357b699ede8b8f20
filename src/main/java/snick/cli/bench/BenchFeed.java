package snick.cli.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.daemon.LiveFeed;
import snick.force.reading.RigSetting;
import snick.port.LinkLostException;
import snick.quantity.Mass;
import snick.sample.Gap;
import snick.sample.Rail;
import snick.sample.SampleSink;
import snick.virtualrig.ServedRig;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/** The rig in use at the bench: its samples, and whoever hangs the masses. One thread. */
public final class BenchFeed implements AutoCloseable {
  private static final long PATIENCE_NANOS = TimeUnit.SECONDS.toNanos(10);

  private final BlockingQueue<TrueCut> truths = new LinkedBlockingQueue<>();
  private final Relay relay = new Relay();
  private final Optional<ServedRig> virtual;
  private final LiveFeed feed;
  private final int polarity;
  private final String name;
  private CompletableFuture<Void> pressing = CompletableFuture.completedFuture(null);

  private BenchFeed(BenchRig rig, int polarity) {
    this.polarity = polarity;
    this.virtual = rig.isVirtual() ? Optional.of(rig.serve(truths::add)) : Optional.empty();
    this.name = virtual.map(ServedRig::port).orElseGet(() -> rig.port().orElseThrow());
    try {
      this.feed = rig.open(name, relay);
    } catch (Refusal e) {
      virtual.ifPresent(ServedRig::close);
      throw e;
    }
  }

  /** Opens the rig that was named and waits until it says who it is. */
  public static BenchFeed open(BenchRig rig, int polarity) {
    rig.requireNamed();
    BenchFeed bench = new BenchFeed(rig, polarity);
    try {
      bench.awaitIdentity();
      return bench;
    } catch (Refusal e) {
      bench.closeAfter(e);
      throw e;
    }
  }

  /** What keeps it from closing tells nobody what to do about the first trouble. */
  private void closeAfter(Refusal first) {
    try {
      close();
    } catch (Refusal notClosed) {
      first.addSuppressed(notClosed);
    }
  }

  private void awaitIdentity() {
    long end = System.nanoTime() + PATIENCE_NANOS;
    boolean more = true;
    while (more && feed.setting(polarity).isEmpty() && System.nanoTime() < end) {
      more = turn();
    }
    if (feed.setting(polarity).isEmpty()) {
      throw feed.decoder()
          .refused()
          .map(line -> Refusal.unavailable(name + ": " + line.words()))
          .orElseGet(
              () ->
                  Refusal.unavailable(
                      "%s said nothing that is understood within 10 s; is it powered, and does its"
                          + " sketch speak firmware-protocol.md? See: snick doctor %s",
                      name, name));
    }
  }

  /** Samples go to {@code sink} from now on. */
  public void to(SampleSink sink) {
    relay.sink = Optional.of(sink);
  }

  /** Samples go to {@code log} as well from now on. */
  public void logTo(SampleSink log) {
    relay.log = Optional.of(log);
  }

  /**
   * Reads once.
   *
   * @return false if nothing follows
   * @throws Refusal if the link was lost or another device answers
   */
  public boolean turn() {
    try {
      boolean more = feed.turn();
      feed.stranger()
          .ifPresent(
              id -> {
                throw Refusal.unavailable(
                    name + " now answers as device " + id + "; plug the first rig in again");
              });
      return more;
    } catch (LinkLostException e) {
      throw Refusal.unavailable(e.getMessage() + "; plug it in and run the command again");
    } catch (IOException e) {
      throw Refusal.failed(name + " cannot be read: " + FileReason.of(e), e);
    }
  }

  /** Presses the virtual rig for a second; a real one is pressed by hand. */
  void touch() {
    Script press =
        Script.of(new Action.Hang(Mass.ofGrams(100)), new Action.Rest(3), Action.Hang.nothing());
    if (virtual.isPresent()) {
      pressing = virtual.get().perform(press);
    }
  }

  /** Device time at which the thread was truly cut, ns; only the virtual rig knows. */
  public OptionalLong trueCutNanos() {
    TrueCut truth = truths.peek();
    OptionalLong originMicros = feed.originMicros();
    return truth == null || originMicros.isEmpty()
        ? OptionalLong.empty()
        : OptionalLong.of(truth.breakNanos() - 1000 * originMicros.getAsLong());
  }

  /** The rig and how it is set now. */
  public RigSetting setting() {
    return feed.setting(polarity).orElseThrow();
  }

  /** The same, with another polarity. */
  public RigSetting setting(int otherPolarity) {
    return feed.setting(otherPolarity).orElseThrow();
  }

  /**
   * Whoever hangs the masses: the virtual operator, or a person who is talked to on {@code out}.
   */
  public Operator operator(PrintWriter out) {
    return virtual
        .<Operator>map(rig -> new VirtualOperator(rig, this::arrivedNanos))
        .orElseGet(() -> new TypingOperator(System.in, out));
  }

  /** Device time of the newest sample, ns on the device's own clock. */
  private long arrivedNanos() {
    return relay.lastNanos + 1000 * feed.originMicros().orElse(0);
  }

  @Override
  public void close() {
    pressing.cancel(false);
    try {
      feed.close();
    } catch (IOException e) {
      throw Refusal.failed(name + " cannot be closed: " + e.getMessage(), e);
    } finally {
      virtual.ifPresent(ServedRig::close);
    }
  }

  /** Hands samples on to whoever wants them. */
  private static final class Relay implements SampleSink {
    private Optional<SampleSink> sink = Optional.empty();
    private Optional<SampleSink> log = Optional.empty();
    private long lastNanos;

    @Override
    public void sample(long deviceNanos, int counts) {
      lastNanos = deviceNanos;
      sink.ifPresent(s -> s.sample(deviceNanos, counts));
      log.ifPresent(s -> s.sample(deviceNanos, counts));
    }

    @Override
    public void overrange(long deviceNanos, Rail rail) {
      lastNanos = deviceNanos;
      sink.ifPresent(s -> s.overrange(deviceNanos, rail));
      log.ifPresent(s -> s.overrange(deviceNanos, rail));
    }

    @Override
    public void gap(Gap gap) {
      sink.ifPresent(s -> s.gap(gap));
      log.ifPresent(s -> s.gap(gap));
    }

    @Override
    public void end() {
      sink.ifPresent(SampleSink::end);
    }
  }
}
