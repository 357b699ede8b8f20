package snick.store.record;

import java.time.Instant;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snick.cut.Cut;
import snick.cut.Flag;
import snick.cut.Outcome;
import snick.cut.Peak;

/**
 * What one version of the detector made of a cut's trace. The fields mean what they mean in {@link
 * Cut}.
 *
 * @param id tells it from the cut's other results, 0 for the first; the one with the largest id is
 *     current
 * @param detectorVersion {@link Cut#DETECTOR_VERSION} of the program that made it
 * @param createdAt when it was stored
 * @param responseId id of the response of the rig that it was derived with; empty if none was known
 */
public record StoredResult(
    long id,
    int detectorVersion,
    Instant createdAt,
    Outcome outcome,
    int polarity,
    long onsetNanos,
    OptionalLong breakNanos,
    Optional<Peak> peak,
    Cut.Shape shape,
    Cut.Rest rest,
    Set<Flag> flags,
    Optional<String> responseId) {}
