package snick.view.bench;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.function.ObjIntConsumer;
import java.util.function.Supplier;
import snick.force.budget.Calibration;
import snick.force.reading.RigSetting;
import snick.live.BenchState;
import snick.live.LiveTrace;
import snick.live.NextSpot;
import snick.live.RigTap;
import snick.phrase.Phrase;
import snick.store.Store;
import snick.store.StoreReader;

/**
 * What the page looks at and writes to.
 *
 * @param state how the recorder is doing; any thread
 * @param metrics its metrics; any thread
 * @param rigs what is plugged in
 * @param doors the page's own doors to the store
 * @param nextSpot where the next cut is going to be
 * @param complain takes what went wrong with the page, for people; any thread
 * @param clock wall clock
 * @param preferences what the person has set once for all
 */
public record Bench(
    Supplier<BenchState> state,
    RigMetrics metrics,
    Rigs rigs,
    Doors doors,
    NextSpot nextSpot,
    Consumer<Phrase> complain,
    Clock clock,
    Preferences preferences) {
  /**
   * The rigs, and where one more could be.
   *
   * @param traces live samples, one a rig
   * @param taps where the samples of each rig go
   * @param scales what turns counts into forces
   * @param ports lists the serial ports of this machine without opening them; any thread
   */
  public record Rigs(
      List<LiveTrace> traces, List<RigTap> taps, Scales scales, Supplier<List<PortHere>> ports) {}

  /**
   * Calibrations, by number of the rig. Any thread.
   *
   * @param inUse the one in use
   * @param setting rig and setting, polarity 1; empty until the rig said who it is
   * @param use takes one that a rig uses from now on
   */
  public record Scales(
      IntFunction<Optional<Calibration>> inUse,
      IntFunction<Optional<RigSetting>> setting,
      ObjIntConsumer<Calibration> use) {}

  /**
   * Doors to the store, each used by one thread.
   *
   * @param folder the data directory
   * @param reader for the session on the bench
   * @param archive for what lies back
   * @param writer for the journal, calibrations and checks
   */
  public record Doors(Path folder, StoreReader reader, StoreReader archive, Store writer)
      implements AutoCloseable {
    /** Opens them. */
    public static Doors open(Path folder, Clock clock) {
      Store writer = Store.open(folder, clock);
      return new Doors(folder, StoreReader.open(folder), StoreReader.open(folder), writer);
    }

    @Override
    public void close() {
      reader.close();
      archive.close();
      writer.close();
    }
  }

  /** The calibration in use for a rig. */
  public Optional<Calibration> calibration(int rig) {
    return rigs.scales().inUse().apply(rig);
  }

  /** Reads the session on the bench. */
  public StoreReader reader() {
    return doors.reader();
  }

  /** Writes for the page. */
  public Store writer() {
    return doors.writer();
  }
}
