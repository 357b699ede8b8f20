package snick.cli.exchange;

import static java.util.stream.Collectors.joining;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.NewFile;
import snick.cli.terminal.Refusal;
import snick.exchange.write.ExportChoice;
import snick.exchange.write.Licence;
import snick.exchange.write.PackageExport;
import snick.exchange.write.ParquetExport;
import snick.store.StoreReader;
import snick.store.database.StoreException;
import snick.store.database.Watch;

/** Writes stored cuts as a package for others. */
@Command(
    name = "export",
    description =
        "Write stored cuts with their raw traces as a Data Package that others can check.",
    footer = {
      "  snick export traces.zip --licence CC-BY-4.0",
      "  snick export may --session 2026-05-03-a",
      "  snick export pool --parquet --contributor ann   Parquet, for pooling",
      "  snick export stage.zip --session 2026-05-03-a --stage stropped",
      "",
      "What came from others stays theirs, under their licence; --own leaves it out.",
      "Operator, notes, reasons, and where bytes and masses came from stay out unless --personal."
    })
public final class ExportCommand extends DataCommand implements Runnable {
  @Parameters(paramLabel = "TARGET", description = "New file if it ends in .zip, else new folder.")
  private Path target;

  @Mixin private CutChoice cuts;

  @Option(
      names = {"--licence", "--license"},
      paramLabel = "NAME",
      description = "Licence you give, for example CC-BY-4.0 or CC0-1.0 (default: none).")
  private Optional<String> licence;

  @Option(names = "--title", paramLabel = "TEXT", description = "Title of the package.")
  private Optional<String> title;

  @Option(
      names = "--contributor",
      paramLabel = "NAME",
      description = "Name under which you want to be known (default: none; needed for Parquet).")
  private Optional<String> contributor;

  @Option(
      names = "--parquet",
      description = "Write Parquet for pooling, by rig and date, in place of a package.")
  private boolean parquet;

  @Option(names = "--own", description = "Leave out what came from others.")
  private boolean own;

  @Option(
      names = "--sender-agreed",
      description =
          "Whoever gave you data without a licence agreed to yours: put it on theirs, too.")
  private boolean senderAgreed;

  @Option(names = "--personal", description = "Include the personal fields.")
  private boolean personal;

  @Option(
      names = "--photos",
      description = "Include photos as they are: look first what they show and where from.")
  private boolean photos;

  private List<Licence> licences = List.of();

  @Override
  public void run() {
    int written;
    try (StoreReader store = OpenedStore.toRead(data)) {
      written = StoppedByHand.during("export", err(), watch -> write(store, watch));
    } catch (IOException e) {
      throw NewFile.refusal(target, e);
    } catch (StoreException e) {
      throw Refusal.failed("nothing was exported: " + e.getMessage(), e);
    }
    PrintWriter out = out();
    out.println(written + (written == 1 ? " cut in " : " cuts in ") + target + ".");
    out.println(
        licences.isEmpty()
            ? "No licence for all of it: nobody may pass it on. Choose one: --licence CC-BY-4.0"
            : "Licence: " + licences.stream().map(Licence::name).collect(joining(", ")) + ".");
  }

  private int write(StoreReader store, Watch watch) throws IOException {
    if (parquet) {
      return pool(store, watch);
    }
    PackageExport export = new PackageExport(store, choice(store), watch);
    int written =
        target.toString().endsWith(".zip") ? export.toZip(target) : export.toFolder(target);
    licences = export.licences();
    return written;
  }

  private int pool(StoreReader store, Watch watch) throws IOException {
    ParquetExport export =
        Refusal.ifNotAccepted(() -> new ParquetExport(store, choice(store), watch), Refusal::usage);
    int written = export.toFolder(target);
    licences = export.licences();
    return written;
  }

  private ExportChoice choice(StoreReader store) {
    ExportChoice choice = ExportChoice.of(cuts.selection(store)).only(cuts.ids());
    requireSomething(store, choice);
    try {
      choice = title.isPresent() ? choice.titled(title.get()) : choice;
      choice = licence.isPresent() ? choice.under(new Licence(licence.get())) : choice;
      choice = own ? choice.with(ExportChoice.Wish.OWN_ONLY) : choice;
      choice = senderAgreed ? choice.with(ExportChoice.Wish.SENDERS_AGREED) : choice;
      choice = contributor.isPresent() ? choice.from(contributor.get()) : choice;
      choice = photos ? choice.with(ExportChoice.Wish.PHOTOS) : choice;
      return personal ? choice.with(ExportChoice.Wish.PERSONAL) : choice;
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    }
  }

  /** A session may go out without cuts, for its journal; nothing at all is a slip. */
  private static void requireSomething(StoreReader store, ExportChoice choice) {
    if (choice.cuts().session().isEmpty() && store.count(choice.cuts()) == 0) {
      throw Refusal.badInput(
          "no cut meets that choice, so nothing was exported; see which there are:"
              + " snick cuts list");
    }
  }
}
