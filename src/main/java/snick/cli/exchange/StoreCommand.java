package snick.cli.exchange;

import java.io.IOException;
import java.nio.file.AccessMode;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataDirectory;
import snick.cli.option.OpenedStore;
import snick.cli.terminal.CommandGroup;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.Terminal;
import snick.exchange.check.StoreCheck;
import snick.store.Store;
import snick.store.StoreReader;
import snick.store.care.SalvageReport;
import snick.store.database.StoreException;

/** Cares for the store itself. */
@Command(
    name = "store",
    description = "Check, back up, restore and salvage the store.",
    footer = {
      "  snick store backup /media/stick/snick-may.db     also while recording",
      "  snick store check",
      "  snick store restore /media/stick/snick-may.db --data /home/you/restored",
      "  snick store salvage /home/you/damaged --data /home/you/saved"
    })
public final class StoreCommand extends CommandGroup {
  @Command(
      name = "check",
      mixinStandardHelpOptions = true,
      description = {
        "Check SQLite's structure, references and the checksums of every row and trace; then derive "
            + "every cut again from its trace and compare that with what is stored. Nothing is changed."
      },
      footerHeading = "%nExamples:%n",
      footer = "  snick store check")
  int check(@Mixin DataDirectory data) {
    StoreCheck.Report report;
    try (StoreReader store = OpenedStore.toRead(data)) {
      report = watched("check", watch -> StoreCheck.of(store, watch));
    }
    StoreCheckText.print(out(), report, data);
    boolean good = report.integrity().isSound() && report.differing() == 0;
    return good ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  @Command(
      name = "backup",
      mixinStandardHelpOptions = true,
      description =
          "Copy the store to a new file, also while it is recorded to; checked before it gets its"
              + " name. Photos go into a folder beside it.",
      footerHeading = "%nExamples:%n",
      footer = {"  snick store backup /media/stick/snick-may.db     also while recording"})
  int backup(
      @Parameters(paramLabel = "FILE", description = "New file.") Path target,
      @Mixin DataDirectory data) {
    OpenedStore.requireReadable(data);
    List<String> lost = watched("backup", watch -> StoreReader.backUp(data.path(), target, watch));
    println("The store is in " + target + ", checked.");
    return lost(lost);
  }

  @Command(
      name = "restore",
      mixinStandardHelpOptions = true,
      description = "Make a store out of a backup, in a directory that has none.",
      footerHeading = "%nExamples:%n",
      footer = {"  snick store restore /media/stick/snick-may.db --data /home/you/restored"})
  int restore(
      @Parameters(paramLabel = "FILE", description = "The backup.") Path backup,
      @Mixin DataDirectory data) {
    requireReadable(backup);
    List<String> lost = watched("restore", watch -> Store.restore(backup, data.path(), watch));
    println("The backup is now the store in " + data.path() + ".");
    return lost(lost);
  }

  @Command(
      name = "salvage",
      mixinStandardHelpOptions = true,
      description = "Make a new store out of what is readable of a damaged one.",
      footerHeading = "%nExamples:%n",
      footer = {"  snick store salvage /home/you/damaged --data /home/you/saved"})
  int salvage(
      @Parameters(paramLabel = "DIR", description = "Directory of the damaged store.") Path damaged,
      @Mixin DataDirectory data) {
    requireReadable(damaged.resolve(OpenedStore.FILE));
    tell("reading what is readable …");
    SalvageReport report;
    try {
      report = Store.salvage(damaged, data.path());
    } catch (StoreException e) {
      throw refusal(e);
    }
    long rows = report.rowsKept().values().stream().mapToLong(Long::longValue).sum();
    println(rows + " rows kept in " + data.path() + ".");
    return lost(report.lost());
  }

  private int lost(List<String> lost) {
    lost.forEach(line -> println("  lost: " + PlainText.inert(line)));
    return lost.isEmpty() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  private <T> T watched(String what, StoppedByHand.Work<T, RuntimeException> work) {
    try {
      return StoppedByHand.during(what, err(), work);
    } catch (StoreException e) {
      throw refusal(e);
    }
  }

  private static Refusal refusal(StoreException e) {
    return switch (e.trouble()) {
      case TAKEN -> Refusal.badInput(e.getMessage());
      case MISSING -> Refusal.unavailable(e.getMessage());
      default -> Refusal.failed(e.getMessage(), e);
    };
  }

  private static void requireReadable(Path given) {
    try {
      given.getFileSystem().provider().checkAccess(given, AccessMode.READ);
    } catch (IOException e) {
      throw Refusal.badInput(given + " cannot be read: " + FileReason.of(e));
    }
  }

  private void tell(String word) {
    if (Terminal.watchesErrors()) {
      err().println(word);
    }
  }
}
