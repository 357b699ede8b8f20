package snick.store;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.journal.Session;
import snick.json.Json;
import snick.json.JsonNode;
import snick.phrase.NotAccepted;
import snick.store.record.Evidence;
import snick.store.record.Rig;
import snick.verdict.comparison.RigRepeatability;

/** A rig's repeatability, kept in the store as evidence about the rig. */
public final class KeptStudy {
  private static final String KIND = "repeatability";

  private KeptStudy() {}

  /** What to store of {@code rig}. */
  public static Evidence evidence(String deviceId, Instant at, RigRepeatability rig) {
    Map<String, Object> document =
        Json.object(
            "sd_gf", rig.sdGf(),
            "degrees_of_freedom", rig.degreesOfFreedom(),
            "study", rig.study());
    return new Evidence(deviceId, KIND, at, Json.text(document));
  }

  /**
   * The study last kept for the rig of {@code session}, else for the only rig.
   *
   * @throws NotAccepted if it cannot be read
   */
  public static Optional<RigRepeatability> of(StoreReader store, Session session) {
    return session
        .equipment()
        .rig()
        .or(() -> only(store))
        .flatMap(rig -> store.lastEvidence(rig, KIND))
        .map(KeptStudy::parse);
  }

  /** The rig, if only one was ever recorded: then a session that names none is of it. */
  public static Optional<String> only(StoreReader store) {
    List<Rig> rigs = store.rigs();
    return rigs.size() == 1 ? Optional.of(rigs.get(0).deviceId()) : Optional.empty();
  }

  private static RigRepeatability parse(Evidence study) {
    try {
      JsonNode document = JsonNode.of(KIND, study.document());
      return new RigRepeatability(
          document.member("sd_gf").real(),
          document.member("degrees_of_freedom").real(),
          document.member("study").text() + ", kept " + study.at());
    } catch (IllegalArgumentException e) {
      throw new NotAccepted("refused.study_unreadable", "rig", study.deviceId());
    }
  }
}
