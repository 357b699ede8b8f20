package snick.view;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CopyOnWriteArrayList;
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
  private final List<Note> notes = new CopyOnWriteArrayList<>();

  private record Note(
      OptionalDouble firstZeroCounts,
      int polarity,
      Optional<Verification> check,
      Optional<Linked> linked) {
    static final Note NONE =
        new Note(OptionalDouble.empty(), 1, Optional.empty(), Optional.empty());

    Note withZero(double counts) {
      return new Note(OptionalDouble.of(counts), polarity, check, linked);
    }
  }

  /** A state of the link, and since when. */
  private record Linked(RigState.Link link, Instant since) {}

  RigNotes(Bench bench) {
    this.bench = bench;
    bench.rigs().traces().forEach(trace -> notes.add(Note.NONE));
  }

  /** +1 if load raises the reading of a rig, −1 if it lowers it; +1 until a cut tells. */
  int polarity(int rig) {
    return notes.get(rig).polarity();
  }

  /** A cut told the polarity. */
  synchronized void polarity(int rig, int polarity) {
    Note note = notes.get(rig);
    notes.set(rig, new Note(note.firstZeroCounts(), polarity, note.check(), note.linked()));
  }

  /** Reads the newest verification of each rig. The thread that owns {@code reader}. */
  void readChecks(StoreReader reader) {
    for (RigState rig : bench.state().get().rigs()) {
      checked(rig.rig(), rig.device().flatMap(device -> newest(reader, device)));
    }
  }

  private synchronized void checked(int rig, Optional<Verification> check) {
    Note note = notes.get(rig);
    notes.set(rig, new Note(note.firstZeroCounts(), note.polarity(), check, note.linked()));
  }

  private static Optional<Verification> newest(StoreReader reader, String device) {
    List<Verification> checks = reader.verifications(device);
    return checks.isEmpty() ? Optional.empty() : Optional.of(checks.get(checks.size() - 1));
  }

  /** Notes since when each link is as it is; called steadily. */
  synchronized void follow(BenchState state) {
    for (RigState rig : state.rigs()) {
      Note note = notes.get(rig.rig());
      if (note.linked().filter(linked -> linked.link() == rig.link()).isEmpty()) {
        Linked linked = new Linked(rig.link(), bench.clock().instant());
        notes.set(
            rig.rig(),
            new Note(note.firstZeroCounts(), note.polarity(), note.check(), Optional.of(linked)));
      }
    }
  }

  /** The facts by rig, for {@code state}. */
  synchronized List<RigFacts> of(BenchState state) {
    List<RigFacts> facts = new ArrayList<>();
    for (RigState rig : state.rigs()) {
      Note note = seen(rig);
      facts.add(
          new RigFacts(
              bench.calibration(rig.rig()),
              note.firstZeroCounts(),
              note.polarity(),
              note.check().map(Verification::at),
              note.check().map(Verification::withinLimit),
              note.linked().map(Linked::since)));
    }
    return facts;
  }

  private Note seen(RigState rig) {
    Note note = notes.get(rig.rig());
    if (note.firstZeroCounts().isEmpty() && rig.signal().rest().isPresent()) {
      note = note.withZero(rig.signal().rest().get().levelCounts());
      notes.set(rig.rig(), note);
    }
    return note;
  }
}
