package snick.exchange.table;

import java.util.OptionalInt;
import snick.store.record.EarlierResult;

/**
 * A row of {@code history.csv}.
 *
 * @param cut number of the cut in the package, from 1
 * @param row number of the row in its cut, from 1
 * @param calibration number of its calibration, if it has a force
 * @param earlier what was derived
 */
public record PackagedResult(int cut, int row, OptionalInt calibration, EarlierResult earlier) {}
