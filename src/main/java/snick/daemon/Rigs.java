package snick.daemon;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import snick.daemon.link.RigInUseException;
import snick.daemon.link.RigLock;
import snick.live.RigState;
import snick.phrase.Told;
import snick.port.PortAddress;

/** The rigs that are read: a reader, its thread and its lock each. Safe for any thread. */
final class Rigs {
  private final List<RigReader> readers;
  private final List<Thread> threads = new ArrayList<>();
  private final List<RigLock> locks = new ArrayList<>();
  private final CountDownLatch done;

  /** Not begun yet; {@code broken} is told of an error of this program in one of them. */
  Rigs(List<RigReader> readers, Thread.UncaughtExceptionHandler broken) {
    this.readers = List.copyOf(readers);
    this.done = new CountDownLatch(readers.size());
    for (RigReader reader : readers) {
      Thread thread = new Thread(() -> read(reader), "rig-" + reader.state().rig());
      thread.setUncaughtExceptionHandler(broken);
      threads.add(thread);
    }
  }

  private void read(RigReader reader) {
    try {
      reader.run();
    } finally {
      done.countDown();
    }
  }

  /**
   * Takes the lock of each device among {@code addresses}.
   *
   * @throws RigInUseException if one is being read already
   */
  void lock(List<PortAddress> addresses, Path folder) throws IOException, RigInUseException {
    for (PortAddress address : addresses) {
      if (address.live()) {
        locks.add(RigLock.take(folder, RigLock.nameOf(address)));
      }
    }
  }

  void start() {
    threads.forEach(Thread::start);
  }

  /** Lets reading end soon. */
  void stop() {
    readers.forEach(RigReader::stop);
  }

  /** Waits until all have ended. */
  void awaitEnd() throws InterruptedException {
    done.await();
  }

  /** Ends the wait of {@link #awaitEnd}, whoever still reads. */
  void waitNoLonger() {
    while (done.getCount() > 0) {
      done.countDown();
    }
  }

  /** Waits for each thread, {@code seconds} at most. */
  void join(long seconds) throws InterruptedException {
    for (Thread thread : threads) {
      thread.join(TimeUnit.SECONDS.toMillis(seconds));
    }
  }

  /** Gives the locks back; what hinders is a fault. */
  void unlock(FaultLog faults) {
    for (RigLock lock : locks) {
      try {
        lock.close();
      } catch (IOException e) {
        faults.note("lock", Told.of(e));
      }
    }
  }

  List<RigState> states() {
    return readers.stream().map(RigReader::state).toList();
  }

  /** The loops of those that read a device. */
  Stream<Rounds> loops() {
    return readers.stream().filter(RigReader::live).map(RigReader::rounds);
  }

  /** Why some could not be opened at all, one sentence each. */
  List<String> refusals() {
    return readers.stream().flatMap(reader -> reader.refusal().stream()).toList();
  }

  /** Whether those are files alone. */
  boolean refusedFiles() {
    return readers.stream()
        .filter(reader -> reader.refusal().isPresent())
        .noneMatch(RigReader::live);
  }
}
