package snick.view;

import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import snick.force.Calibration;
import snick.store.Store;
import snick.store.StoreReader;

/**
 * What the page looks at and writes to.
 *
 * @param state how the recorder is doing; any thread
 * @param metrics its metrics; any thread
 * @param traces live samples, one a rig
 * @param calibration the calibration in use, by number of the rig; any thread
 * @param reader the page's own reader; used by one thread
 * @param writer the page's own writer, for the journal alone; used by one thread
 * @param nextSpot where the next cut is going to be
 * @param complain takes what went wrong with the page, for people; any thread
 * @param clock wall clock
 * @param preferences what the person has set once for all
 */
public record Bench(
    Supplier<BenchState> state,
    RigMetrics metrics,
    List<LiveTrace> traces,
    IntFunction<Optional<Calibration>> calibration,
    StoreReader reader,
    Store writer,
    NextSpot nextSpot,
    Consumer<String> complain,
    Clock clock,
    Preferences preferences) {}
