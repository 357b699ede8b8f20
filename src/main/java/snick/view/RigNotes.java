package snick.view;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import snick.live.BenchState;
import snick.live.RigState;
import snick.store.StoreReader;
import snick.store.record.Verification;
import snick.view.bench.Bench;

/**
 * What the page notes of each rig on its own: first zero, polarity, verification. Any thread; the
 * store is never read while others wait.
 */
final class RigNotes {
  private final Bench bench;
  private final List<Note> notes;

  /** What is noted of one rig; whoever touches it holds the lock. */
  private static final class Note {
    OptionalDouble firstZeroCounts = OptionalDouble.empty();
    int polarity = 1;
    Optional<Verification> check = Optional.empty();
    Optional<RigState.Link> link = Optional.empty();
    Optional<Instant> linkSince = Optional.empty();
  }

  RigNotes(Bench bench) {
    this.bench = bench;
    notes = bench.rigs().traces().stream().map(trace -> new Note()).toList();
  }

  /** +1 if load raises the reading of a rig, −1 if it lowers it; +1 until a cut tells. */
  synchronized int polarity(int rig) {
    return notes.get(rig).polarity;
  }

  /** A cut told the polarity. */
  synchronized void polarity(int rig, int polarity) {
    notes.get(rig).polarity = polarity;
  }

  /** Reads the newest verification of each rig. The thread that owns {@code reader}. */
  void readChecks(StoreReader reader) {
    for (RigState rig : bench.state().get().rigs()) {
      checked(rig.rig(), rig.device().flatMap(device -> newest(reader, device)));
    }
  }

  private synchronized void checked(int rig, Optional<Verification> check) {
    notes.get(rig).check = check;
  }

  private static Optional<Verification> newest(StoreReader reader, String device) {
    List<Verification> checks = reader.verifications(device);
    return checks.isEmpty() ? Optional.empty() : Optional.of(checks.get(checks.size() - 1));
  }

  /** Notes since when each link is as it is; called steadily. */
  synchronized void follow(BenchState state) {
    for (RigState rig : state.rigs()) {
      Note note = notes.get(rig.rig());
      if (!note.link.equals(Optional.of(rig.link()))) {
        note.link = Optional.of(rig.link());
        note.linkSince = Optional.of(bench.clock().instant());
      }
    }
  }

  /** The facts by rig, for {@code state}. */
  synchronized List<RigFacts> of(BenchState state) {
    List<RigFacts> facts = new ArrayList<>();
    for (RigState rig : state.rigs()) {
      Note note = notes.get(rig.rig());
      if (note.firstZeroCounts.isEmpty() && rig.signal().rest().isPresent()) {
        note.firstZeroCounts = OptionalDouble.of(rig.signal().rest().get().levelCounts());
      }
      facts.add(
          new RigFacts(
              bench.calibration(rig.rig()), note.firstZeroCounts, note.check, note.linkSince));
    }
    return facts;
  }
}
