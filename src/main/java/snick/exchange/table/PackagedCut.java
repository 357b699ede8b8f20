package snick.exchange.table;

import java.util.OptionalInt;
import snick.store.record.CutSummary;

/**
 * A row of {@code cuts.csv}.
 *
 * @param number number of the cut in the package, from 1
 * @param recording number of its recording
 * @param session number of its session, if it belongs to one
 * @param calibration number of its calibration, if it has a force
 * @param source number of the source whose work it is; empty: the sender's own
 * @param cut the cut
 */
public record PackagedCut(
    int number,
    int recording,
    OptionalInt session,
    OptionalInt calibration,
    OptionalInt source,
    CutSummary cut) {}
