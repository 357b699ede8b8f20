package snick.virtualrig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.Consumer;
import java.util.function.Function;
import snick.virtualrig.bench.TrueCut;
import snick.virtualrig.line.Link;
import snick.virtualrig.line.Outgoing;
import snick.virtualrig.line.Pacer;
import snick.virtualrig.line.Sent;
import snick.virtualrig.script.Action;
import snick.virtualrig.script.Script;

/**
 * A virtual rig living on a port, in a thread of its own. Its methods may be called by any thread.
 */
public class ServedRig implements AutoCloseable {
  private static final int STEPS_A_TURN = 64;
  private static final int READ_BYTES = 256;
  private static final long LONGEST_WAIT_NANOS = 20_000_000;
  private static final long SHORTEST_WAIT_NANOS = 200_000;

  final Link link;
  private final Pacer pacer;
  private final VirtualRig.WhenFull whenFull;
  final RigMachine machine;
  final Outgoing outgoing = new Outgoing();
  private final byte[] heard = new byte[READ_BYTES];
  private final Queue<Runnable> requests = new ConcurrentLinkedQueue<>();
  private final Queue<Running> running = new ArrayDeque<>();
  private final Queue<CompletableFuture<Void>> unfinished = new ConcurrentLinkedQueue<>();
  private final CompletableFuture<Sent> ended = new CompletableFuture<>();
  private final Thread thread;
  private final String port;
  private volatile boolean closing;
  private volatile Sent sent = new Sent(0, 0, 0);
  private boolean reader;
  private long askedActions;

  private record Running(long untilActions, CompletableFuture<Void> done) {}

  /** A rig that does not live yet; {@code machine} is what it is, given where its bytes go. */
  ServedRig(
      Link link,
      Pacer pacer,
      VirtualRig.WhenFull whenFull,
      Function<RigMachine.Host, RigMachine> machine) {
    this.link = link;
    this.port = link.port();
    this.pacer = pacer;
    this.whenFull = whenFull;
    this.machine = machine.apply((nanos, bytes, length) -> send(bytes, length));
    this.thread = new Thread(this::live, "virtual-rig");
    this.thread.setDaemon(true);
  }

  static ServedRig start(
      VirtualRig rig,
      Link link,
      Pacer pacer,
      VirtualRig.WhenFull whenFull,
      Consumer<TrueCut> truths) {
    ServedRig served =
        new ServedRig(link, pacer, whenFull, host -> new RigMachine(rig, truths, host));
    served.begin();
    return served;
  }

  final void begin() {
    thread.start();
  }

  /** What the host opens: a path, or {@code tcp://host:port}. */
  public String port() {
    return port;
  }

  /**
   * Add a script behind what waits.
   *
   * @return done when its last action is over; exceptionally if the rig ends before
   */
  public CompletableFuture<Void> perform(Script script) {
    return perform(script.actions().size(), () -> machine.perform(script));
  }

  final CompletableFuture<Void> perform(int actions, Runnable asking) {
    CompletableFuture<Void> done = new CompletableFuture<>();
    request(
        () -> {
          asking.run();
          askedActions += actions;
          running.add(new Running(askedActions, done));
        });
    unfinished.add(done);
    failIfEnded();
    return done;
  }

  private void failIfEnded() {
    if (ended.isDone()) {
      unfinished.forEach(
          done ->
              done.completeExceptionally(
                  new IllegalStateException("the virtual rig on " + port + " has ended")));
    }
  }

  /** Add one action behind what waits. */
  public CompletableFuture<Void> perform(Action action) {
    return perform(Script.of(action));
  }

  final void request(Runnable request) {
    requests.add(request);
  }

  /** What was sent, as of a moment ago. */
  public Sent sent() {
    return sent;
  }

  /** Done when the rig's thread has ended; exceptionally if it failed. */
  public CompletableFuture<Sent> ended() {
    return ended.copy();
  }

  /** End the rig's thread and take the port away. Waits for both. */
  @Override
  public void close() {
    closing = true;
    boolean interrupted = false;
    while (thread.isAlive()) {
      try {
        thread.join();
      } catch (InterruptedException stop) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  private void live() {
    try {
      try {
        while (!closing) {
          turn();
        }
      } finally {
        link.hangUp();
      }
      ended.complete(machine.sent());
    } catch (IOException | RuntimeException failure) {
      ended.completeExceptionally(failure);
    }
    failIfEnded();
  }

  void turn() throws IOException {
    for (Runnable request = requests.poll(); request != null; request = requests.poll()) {
      request.run();
    }
    lookForReader();
    if (standsStill()) {
      link.await(LONGEST_WAIT_NANOS);
      return;
    }
    long waitNanos = pacer.waitNanos(machine.nextNanos());
    if (waitNanos > 0) {
      link.await(Math.max(SHORTEST_WAIT_NANOS, Math.min(waitNanos, LONGEST_WAIT_NANOS)));
    } else {
      catchUp();
    }
    listen();
    outgoing.flush(link);
  }

  /** Whether the rig's time does not pass. */
  boolean standsStill() {
    return !reader && whenFull == VirtualRig.WhenFull.WAIT;
  }

  private void lookForReader() {
    boolean before = reader;
    reader = link.hasReader();
    if (reader && !before && whenFull == VirtualRig.WhenFull.WAIT) {
      pacer.goOnFrom(machine.nowNanos());
    }
    if (!reader) {
      outgoing.clear();
    }
  }

  private void catchUp() {
    for (int i = 0; i < STEPS_A_TURN && pacer.waitNanos(machine.nextNanos()) <= 0; i++) {
      machine.step();
    }
    sent = machine.sent();
    while (!running.isEmpty() && running.peek().untilActions() <= machine.finishedActions()) {
      running.remove().done().complete(null);
      unfinished.removeIf(CompletableFuture::isDone);
    }
  }

  private void listen() throws IOException {
    if (!reader) {
      return;
    }
    for (int length = link.read(heard); length > 0; length = link.read(heard)) {
      long nanos = pacer.rigNanos(machine.nowNanos(), machine.nextNanos());
      machine.receive(heard, length, nanos);
    }
  }

  private boolean send(byte[] bytes, int length) {
    if (!reader) {
      return true;
    }
    if (!outgoing.hasRoomFor(length)) {
      makeRoom(length);
    }
    boolean room = outgoing.hasRoomFor(length);
    if (room) {
      outgoing.add(bytes, length);
    }
    return room;
  }

  private void makeRoom(int length) {
    try {
      outgoing.flush(link);
      boolean waited = false;
      while (whenFull == VirtualRig.WhenFull.WAIT
          && !closing
          && link.hasReader()
          && !outgoing.hasRoomFor(length)) {
        link.await(SHORTEST_WAIT_NANOS);
        outgoing.flush(link);
        waited = true;
      }
      if (waited) {
        pacer.goOnFrom(machine.nowNanos());
      }
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }
}
