package snick.exchange.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import snick.cut.Rederivation;
import snick.exchange.derive.CutCheck;
import snick.exchange.derive.InOrder;
import snick.force.budget.Calibration;
import snick.store.StoreReader;
import snick.store.care.IntegrityReport;
import snick.store.database.StoreException;
import snick.store.database.Watch;
import snick.store.record.CutForce;
import snick.store.record.CutSelection;
import snick.store.record.CutSummary;
import snick.store.record.Recording;
import snick.store.record.StoredCut;
import snick.store.record.StoredRecording;

/**
 * Checks a whole store: SQLite's structure and references, the checksums of every row and trace,
 * and what is stored of every cut against what this program's detector and the cut's calibration
 * make of its trace. One thread reads, all processors derive again; constant memory.
 */
public final class StoreCheck {
  private static final int MOST_DIFFERENCES = 100;

  private final StoreReader store;
  private final Watch watch;
  private final Map<String, Optional<Calibration>> calibrations = new HashMap<>();
  private final Map<Long, Optional<Recording>> recordings = new HashMap<>();
  private final List<String> differences = new ArrayList<>();
  private final Rederivation rederivation = new Rederivation();
  private long given;
  private long again;
  private long withoutTrace;
  private long differing;

  /**
   * What a check found.
   *
   * @param integrity structure, references and checksums
   * @param again cuts derived again from their traces
   * @param withoutTrace cuts that have no samples: typed in, or salvaged without
   * @param differing cuts of which something stored is not what the trace gives
   * @param differences what that is, one sentence each, the first 100
   */
  public record Report(
      IntegrityReport integrity,
      long again,
      long withoutTrace,
      long differing,
      List<String> differences) {
    public Report {
      differences = List.copyOf(differences);
    }
  }

  private record Finding(long cut, List<String> differences) {}

  private StoreCheck(StoreReader store, Watch watch) {
    this.store = store;
    this.watch = watch;
  }

  /** Checks a store. */
  public static Report of(StoreReader store, Watch watch) {
    IntegrityReport integrity = store.verify(watch);
    return new StoreCheck(store, watch).derive(integrity);
  }

  private Report derive(IntegrityReport integrity) {
    long total = integrity.traces();
    try (InOrder<Finding> checks = new InOrder<>(this::note)) {
      store.forEachSummary(
          CutSelection.all(),
          cut -> {
            watch.check("deriving again", given, total);
            given++;
            readable(cut).ifPresent(stored -> give(stored, checks));
          });
      checks.finish();
    }
    return new Report(integrity, again, withoutTrace, differing, differences);
  }

  /** The cut with its trace; empty if that is damaged, which the check of traces has told. */
  private Optional<StoredCut> readable(CutSummary cut) {
    try {
      return store.cut(cut.id());
    } catch (StoreException e) {
      if (e.trouble() == StoreException.Trouble.DAMAGED) {
        return Optional.empty();
      }
      throw e;
    }
  }

  private void give(StoredCut stored, InOrder<Finding> checks) {
    int samples = stored.trace().size();
    if (samples == 0) {
      withoutTrace++;
      return;
    }
    Optional<Recording> recording = recording(stored.summary().recordingId());
    Optional<Calibration> calibration = stored.summary().force().flatMap(this::calibration);
    checks.give(samples, () -> check(stored, recording, calibration));
  }

  /** What a damaged row states may be nothing that can be. */
  private Finding check(
      StoredCut stored, Optional<Recording> recording, Optional<Calibration> calibration) {
    try {
      return derived(stored, recording.orElseThrow(), calibration);
    } catch (IllegalArgumentException | NoSuchElementException e) {
      return new Finding(stored.id(), List.of("what is stated of it cannot be: " + e.getMessage()));
    }
  }

  private Finding derived(
      StoredCut stored, Recording recording, Optional<Calibration> calibration) {
    int version = stored.summary().result().detectorVersion();
    CutCheck check = new CutCheck(stored.cut(), version, calibration);
    check.counts(recording);
    stored.summary().force().ifPresent(check::force);
    return new Finding(stored.id(), check.again(rederivation));
  }

  private Optional<Recording> recording(long id) {
    return recordings.computeIfAbsent(
        id, key -> store.recording(key).map(StoredRecording::recording));
  }

  private Optional<Calibration> calibration(CutForce force) {
    return calibrations.computeIfAbsent(
        force.calibrationId(), id -> store.calibration(id).map(c -> c.calibration()));
  }

  private void note(Finding finding) {
    again++;
    differing += finding.differences().isEmpty() ? 0 : 1;
    for (String difference : finding.differences()) {
      if (differences.size() < MOST_DIFFERENCES) {
        differences.add("cut " + finding.cut() + ": " + difference);
      }
    }
  }
}
