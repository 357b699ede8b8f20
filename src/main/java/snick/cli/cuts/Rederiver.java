package snick.cli.cuts;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import snick.cut.Cut;
import snick.cut.Rederivation;
import snick.cut.response.Response;
import snick.daemon.Scale;
import snick.force.budget.Calibration;
import snick.force.budget.DerivedForce;
import snick.quantity.MeasuredForce;
import snick.store.StoreReader;
import snick.store.record.CutForce;
import snick.store.record.NewResult;
import snick.store.record.Recording;
import snick.store.record.StoredCalibration;
import snick.store.record.StoredCut;
import snick.store.record.StoredResponse;

/** Derives stored cuts again: with another calibration, and with this program's detector. */
final class Rederiver {
  private final StoreReader store;
  private final Optional<Calibration> asked;
  private final boolean everyTrace;
  private final Rederivation rederivation = new Rederivation();
  private final Map<Long, Scale> scales = new HashMap<>();
  private final Map<Long, Response> responses = new HashMap<>();

  /**
   * What deriving a cut again comes to.
   *
   * @param cutId the cut
   * @param before force until now; empty if it had none
   * @param after force from now on; empty if it has none
   * @param outcomeBefore word of the outcome until now
   * @param outcomeAfter word of the outcome from now on
   * @param why why there is no force; empty if there is one
   * @param result what to store; empty if nothing changes
   */
  record Change(
      long cutId,
      Optional<MeasuredForce> before,
      Optional<MeasuredForce> after,
      String outcomeBefore,
      String outcomeAfter,
      String why,
      Optional<NewResult> result) {}

  /**
   * Derives again.
   *
   * @param asked calibration to use; empty for each rig's newest
   * @param everyTrace whether the detector looks at traces anew that its version has judged already
   */
  Rederiver(StoreReader store, Optional<Calibration> asked, boolean everyTrace) {
    this.store = store;
    this.asked = asked;
    this.everyTrace = everyTrace;
  }

  /** What deriving {@code stored} again comes to. */
  Change of(StoredCut stored) {
    Optional<Cut> found = detectAgain(stored);
    Cut cut = found.orElseGet(stored::cut);
    Scale scale = scales.computeIfAbsent(stored.summary().recordingId(), this::scale);
    DerivedForce force = scale.estimate(cut);
    Optional<CutForce> derived =
        scale.observedMaximum(cut).measured().map(max -> new CutForce(force, max.value()));
    Optional<CutForce> known = stored.summary().force();
    boolean same = found.isEmpty() && (derived.isEmpty() || derived.equals(known));
    return new Change(
        stored.id(),
        known.flatMap(f -> f.estimate().measured()),
        derived.or(() -> known).flatMap(f -> f.estimate().measured()),
        stored.summary().figures().outcome().word(),
        cut.outcome().word(),
        whyNot(force, stored),
        same ? Optional.empty() : Optional.of(new NewResult(stored.id(), found, derived)));
  }

  private static String whyNot(DerivedForce force, StoredCut stored) {
    return force
        .missing()
        .map(
            now ->
                now
                    + stored
                        .summary()
                        .standing()
                        .missing()
                        .filter(recorded -> !recorded.equals(now))
                        .map(recorded -> " (when recorded: " + recorded + ")")
                        .orElse(""))
        .orElse("");
  }

  private Optional<Cut> detectAgain(StoredCut stored) {
    boolean old = stored.summary().result().detectorVersion() < Cut.DETECTOR_VERSION;
    return old || everyTrace
        ? rederivation
            .of(stored.cut(), response(stored.summary().recordingId()))
            .filter(
                again -> old || !again.figures().values().equals(stored.cut().figures().values()))
        : Optional.empty();
  }

  /** What is known by now of the rig that made a recording. */
  private Response response(long recordingId) {
    return responses.computeIfAbsent(
        recordingId,
        id -> {
          Recording recording = store.recording(id).orElseThrow().recording();
          return store
              .currentResponse(recording.deviceId(), recording.nominalRate())
              .map(StoredResponse::response)
              .orElse(Response.unknown());
        });
  }

  private Scale scale(long recordingId) {
    Recording recording = store.recording(recordingId).orElseThrow().recording();
    return asked
        .or(
            () ->
                store.currentCalibration(recording.deviceId()).map(StoredCalibration::calibration))
        .map(calibration -> StoredCalibrations.scale(calibration, recording))
        .orElseGet(() -> StoredCalibrations.none(recording));
  }
}
