package snick.daemon;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import snick.cut.Cut;
import snick.cut.CutDetector;
import snick.cut.response.Response;
import snick.daemon.link.HelloRequests;
import snick.daemon.link.LinkWatch;
import snick.daemon.link.RigOpening;
import snick.frame.StreamDecoder;
import snick.frame.message.Hello;
import snick.live.RigState;
import snick.phrase.Phrase;
import snick.phrase.Told;
import snick.port.ByteSource;
import snick.port.LinkLostException;
import snick.port.PortAddress;
import snick.quantity.SampleRate;
import snick.sample.HostClockFit;
import snick.sample.SampleSink;
import snick.store.record.HostClock;
import snick.store.record.Recording;

/**
 * Reads one rig: port, frames, samples, cuts. Opens the link again when it is lost. Runs on its own
 * thread until stopped or until a file ends; hands finished events to the keeper's queue and waits
 * there if it is full.
 */
final class RigReader implements Runnable, DeviceGate.Listener {
  private static final int BUFFER_BYTES = 1 << 16;
  private static final Duration REOPEN_WAIT = Duration.ofMillis(200);
  private static final long STATE_EVERY_NANOS = TimeUnit.MILLISECONDS.toNanos(100);
  private static final long CLOCK_EVERY_NANOS = TimeUnit.SECONDS.toNanos(60);

  /** An event that is said to be over for longer is the claim of a clock that is not one. */
  private static final long MOST_AGO_NANOS = TimeUnit.HOURS.toNanos(1);

  private final int rig;
  private final PortAddress address;
  private final RigOpening opening;
  private final Surroundings around;
  private final Supplier<Response> response;
  private final Pipeline pipeline;
  private final HostClockFit clockFit = new HostClockFit();
  private final HelloRequests requests;
  private final Rounds rounds = new Rounds();
  private final Handover handover;
  private DeviceGate gate;
  private Optional<Hello> recorded = Optional.empty();
  private final LinkWatch watch = new LinkWatch();
  private final TextDoubts doubts;
  private boolean garbled;
  private Optional<String> device = Optional.empty();
  private OptionalLong strangerId = OptionalLong.empty();
  private boolean newerSaid;
  private long lastStateNanos;
  private long lastClockNanos;
  private long clockRestarts;
  private volatile Optional<String> refusal = Optional.empty();
  private volatile boolean stopping;
  private volatile RigState state;
  private volatile RigState.Link link = RigState.Link.OPENING;

  /**
   * For one rig.
   *
   * @param rig its number, from 0
   * @param watch sees every sample before the detector does
   * @param response what is known of the rig's response
   */
  RigReader(
      int rig,
      RigOpening opening,
      Pipeline.Settings settings,
      Surroundings around,
      UnaryOperator<SampleSink> watch,
      Supplier<Response> response) {
    this.rig = rig;
    this.address = opening.address();
    this.opening = opening;
    this.around = around;
    this.response = response;
    this.requests = new HelloRequests(around.time());
    this.lastStateNanos = around.time().monotonicNanos();
    this.lastClockNanos = lastStateNanos;
    this.handover = new Handover(address.text(), around, rounds);
    this.state = RigState.opening(rig, address.text());
    this.pipeline =
        new Pipeline(
            settings,
            address.live() ? StreamDecoder.Start.MIDWAY : StreamDecoder.Start.AT_BEGINNING,
            new CutDetector(settings.detector(), this::finished),
            watch,
            stream -> {
              gate = new DeviceGate(stream, this);
              return gate;
            });
    this.doubts = new TextDoubts(address, pipeline, settings.assumedRate(), around);
  }

  /** The rig's present state; any thread. */
  RigState state() {
    return state;
  }

  /** Ends reading soon; the event in flight is kept. Any thread. */
  void stop() {
    stopping = true;
  }

  @Override
  public void run() {
    try {
      boolean again = true;
      while (again && !stopping) {
        rounds.went();
        again = readOnce();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      pipeline.end();
      publish(RigState.Link.ENDED);
      rounds.end();
    }
  }

  /** Opens and reads until the link is lost; whether to try again. */
  private boolean readOnce() throws InterruptedException {
    boolean back = opening.known();
    try (ByteSource source = opening.open(rounds::went)) {
      opened(back);
      readAll(source);
      ended();
      return false;
    } catch (LinkLostException e) {
      lost(e);
      return true;
    } catch (IOException e) {
      return notOpened(e);
    }
  }

  /** A file that held nothing that is understood is refused. */
  private void ended() {
    if (!address.live() && !stopping) {
      pipeline.end();
      doubts.nothingRead().ifPresent(this::refuse);
    }
  }

  private void refuse(String why) {
    refusal = Optional.of(why);
    around.tell().accept(why);
  }

  private void opened(boolean back) {
    if (back) {
      pipeline.linkReopened();
      clockFit.forget();
      doubts.reopened();
      gate.shut();
      around.say("fault.back", "port", address.text());
    } else if (link == RigState.Link.AWAITING_RIG) {
      around.say("fault.there", "port", address.text());
    }
  }

  /** Whether to try again. */
  private boolean notOpened(IOException e) throws InterruptedException {
    RigOpening.Step step = opening.after(e, around.time().monotonicNanos());
    if (step == RigOpening.Step.AWAIT) {
      awaited(Told.of(e));
    } else {
      around.faults().note("port", Told.of(e));
    }
    if (step == RigOpening.Step.GIVE_UP) {
      refuse(e.getMessage());
      return false;
    }
    around.time().pause(REOPEN_WAIT);
    return true;
  }

  /** Said once, however long it takes. */
  private void awaited(Phrase why) {
    if (link != RigState.Link.AWAITING_RIG) {
      around.report("waiting for the rig", Phrase.of("fault.waiting", "why", why));
      publish(RigState.Link.AWAITING_RIG);
    }
  }

  /** Whether this thread goes on; any thread. */
  Rounds rounds() {
    return rounds;
  }

  /** Whether its bytes come from a rig, not from a file. */
  boolean live() {
    return address.live();
  }

  /** Why the rig could not be opened at all; any thread. */
  Optional<String> refusal() {
    return refusal;
  }

  /** Said a little later: when this program ends, the serial library closes its ports by itself. */
  private void lost(LinkLostException e) throws InterruptedException {
    publish(RigState.Link.LOST);
    around.time().pause(REOPEN_WAIT);
    if (!stopping) {
      around.report("link lost", Phrase.of("fault.lost", "why", e.why()));
    }
  }

  private void readAll(ByteSource source) throws IOException {
    byte[] buffer = new byte[BUFFER_BYTES];
    watch.opened(around.time().monotonicNanos());
    publish(RigState.Link.AWAITING_HELLO);
    requests.again();
    requests.askIfDue(source);
    while (!stopping && !source.ended()) {
      rounds.went();
      int count = source.read(buffer);
      if (count > 0) {
        take(source, buffer, count);
      }
      rest(source);
    }
  }

  private void take(ByteSource source, byte[] buffer, int count) {
    pipeline.detector().know(response.get());
    pipeline.accept(buffer, count);
    watch.bytes(around.time().monotonicNanos(), pipeline.tally().samples());
    long restarts = pipeline.stream().facts().restarts();
    if (restarts != clockRestarts) {
      clockRestarts = restarts;
      clockFit.forget();
      around
          .faults()
          .note("device restarted", Phrase.of("fault.restarted", "port", address.text()));
    }
    clockFit.observe(pipeline.stream().lastNanos(), source.arrivalNanos());
    doubts.look(source.arrivalNanos());
  }

  /** What is due between two reads. */
  private void rest(ByteSource source) throws IOException {
    long now = around.time().monotonicNanos();
    if (!gate.passing()) {
      requests.askIfDue(source);
    }
    if (now - lastStateNanos >= STATE_EVERY_NANOS) {
      lastStateNanos = now;
      publish(linkState(now));
    }
    if (now - lastClockNanos >= CLOCK_EVERY_NANOS) {
      lastClockNanos = now;
      reportClock(now);
    }
  }

  private RigState.Link linkState(long nowNanos) {
    RigState.Link now = watch.link(nowNanos, gate.passing());
    if (now == RigState.Link.SILENT && link != RigState.Link.SILENT) {
      around.report("silence", Phrase.of("fault.silent", "port", address.text()));
    }
    if (watch.garbled(nowNanos) && !garbled) {
      around
          .faults()
          .note("not understood", Phrase.of("fault.no_readings", "port", address.text()));
      around.tell().accept(doubts.notUnderstood());
    }
    garbled = watch.garbled(nowNanos);
    return now;
  }

  @Override
  public void admitted(Hello hello) {
    strangerId = OptionalLong.empty();
    if (recorded.isEmpty() || !recorded.get().equals(hello)) {
      recorded = Optional.of(hello);
      handover.put(new Work.StreamBegan(rig, recording(hello), Optional.empty()));
    }
  }

  private Recording recording(Hello hello) {
    return new Recording(
        hello.deviceIdText(),
        hello.firmware(),
        address.text(),
        Recording.Form.BINARY,
        around.clock().instant(),
        OptionalInt.of(hello.gain()),
        hello.nominalRateMilliHertz() > 0
            ? Optional.of(new SampleRate(hello.nominalRateMilliHertz() / 1000.0))
            : Optional.empty(),
        0);
  }

  @Override
  public void textBegan(String deviceName) {
    Work.StreamBegan began = doubts.began(rig, deviceName);
    device = Optional.of(began.recording().deviceId());
    handover.put(began);
  }

  @Override
  public void stranger(Hello hello, long expectedDeviceId) {
    Phrase what =
        Phrase.of("fault.another_device")
            .with("port", address.text())
            .with("device", hello.deviceIdText())
            .with("expected", String.format(Locale.ROOT, "%016x", expectedDeviceId));
    around.faults().note("another device", what);
    if (!strangerId.equals(OptionalLong.of(hello.deviceId()))) {
      strangerId = OptionalLong.of(hello.deviceId());
      around.say(what);
    }
  }

  @Override
  public void newerProtocol(Hello hello) {
    Phrase what =
        Phrase.of("fault.newer_protocol")
            .with("port", address.text())
            .with("version", hello.protocolVersion())
            .with("known", DeviceGate.PROTOCOL_VERSION);
    around.faults().note("newer protocol", what);
    if (!newerSaid) {
      newerSaid = true;
      around.say(what);
    }
  }

  private void finished(Cut cut) {
    long now = around.time().monotonicNanos();
    long eventNanos = cut.breakNanos().orElse(cut.onsetNanos());
    OptionalLong hostNanos = clockFit.hostNanos(eventNanos);
    long agoNanos = hostNanos.isPresent() ? now - hostNanos.getAsLong() : 0;
    boolean believable = agoNanos >= 0 && agoNanos <= MOST_AGO_NANOS;
    Instant occurredAt = around.clock().instant().minusNanos(believable ? agoNanos : 0);
    handover.put(new Work.CutFinished(rig, cut, occurredAt, now));
  }

  private void reportClock(long nowNanos) {
    long deviceNanos = pipeline.stream().lastNanos();
    OptionalLong hostNanos = clockFit.hostNanos(deviceNanos);
    if (hostNanos.isPresent() && clockFit.rateErrorPpm().isPresent()) {
      long agoNanos = nowNanos - hostNanos.getAsLong();
      if (!(agoNanos >= 0 && agoNanos <= MOST_AGO_NANOS)) {
        return;
      }
      Instant deviceZero = around.clock().instant().minusNanos(agoNanos).minusNanos(deviceNanos);
      handover.put(
          new Work.ClockFitted(
              rig, new HostClock(deviceZero, clockFit.rateErrorPpm().getAsDouble())));
    }
  }

  private void publish(RigState.Link now) {
    link = now;
    state =
        new RigState(
            rig,
            address.text(),
            now,
            pipeline.stream().hello(),
            pipeline.stream().hello().map(Hello::deviceIdText).or(() -> device),
            new RigState.Clock(pipeline.rateHertz(), clockFit.rateErrorPpm()),
            new RigState.Signal(pipeline.rest(), pipeline.detector().inEvent(), false),
            new RigState.Traffic(pipeline.stream().facts(), pipeline.tally()));
  }
}
