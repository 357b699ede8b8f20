package snick.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import snick.store.CutSelection;
import snick.store.IntegrityReport;
import snick.store.SalvageReport;
import snick.store.Store;
import snick.store.StoreException;
import snick.store.StoreReader;

/** Cares for the store itself. */
@Command(
    name = "store",
    mixinStandardHelpOptions = true,
    description = "Check, back up, restore and salvage the store.",
    footerHeading = "%nExamples:%n",
    footer = {
      "  snick store backup /media/stick/snick-may.db     also while recording",
      "  snick store check",
      "  snick store restore /media/stick/snick-may.db --data /home/you/restored",
      "  snick store salvage /home/you/damaged --data /home/you/saved"
    })
final class StoreCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "Missing command: check, backup, restore or salvage");
  }

  @Command(
      name = "check",
      mixinStandardHelpOptions = true,
      description = "Check SQLite's structure, references, and the checksum of every trace.",
      footerHeading = "%nExamples:%n",
      footer = {"  snick store check"})
  int check(@Mixin DataDirectory data) {
    IntegrityReport report;
    try (StoreReader store = OpenedStore.toRead(data)) {
      long total = store.count(CutSelection.all());
      Progress progress =
          new Progress(spec.commandLine().getErr(), Terminal.watchesErrors(), total);
      report = store.verify(done -> progress.at(done, done));
      progress.done();
    } catch (StoreException e) {
      throw Refusal.failed(e.getMessage(), e);
    }
    out().println(report.traces() + " traces checked, " + report.damagedTraces() + " damaged.");
    report.problems().forEach(p -> out().println("  " + PlainText.inert(p)));
    out().println(report.isSound() ? "The store is sound." : "The store is NOT sound.");
    return report.isSound() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  @Command(
      name = "backup",
      mixinStandardHelpOptions = true,
      description =
          "Copy the store to a new file, also while it is recorded to; checked before it gets its"
              + " name.",
      footerHeading = "%nExamples:%n",
      footer = {"  snick store backup /media/stick/snick-may.db     also while recording"})
  int backup(
      @Parameters(paramLabel = "FILE", description = "New file.") Path target,
      @Mixin DataDirectory data) {
    tell("copying and checking …");
    try {
      StoreReader.backUp(data.path(), target);
    } catch (StoreException e) {
      throw Refusal.failed(e.getMessage(), e);
    }
    out().println("The store is in " + target + ", checked.");
    return ExitCode.OK;
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
    tell("copying and checking …");
    try {
      Store.restore(backup, data.path());
    } catch (StoreException e) {
      throw Refusal.failed(e.getMessage(), e);
    }
    out().println("The backup is now the store in " + data.path() + ".");
    return ExitCode.OK;
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
    tell("reading what is readable …");
    SalvageReport report;
    try {
      report = Store.salvage(damaged, data.path());
    } catch (StoreException e) {
      throw Refusal.failed(e.getMessage(), e);
    }
    long rows = report.rowsKept().values().stream().mapToLong(Long::longValue).sum();
    out().println(rows + " rows kept in " + data.path() + ".");
    report.lost().forEach(line -> out().println("  lost: " + PlainText.inert(line)));
    return report.lost().isEmpty() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }

  private void tell(String word) {
    if (Terminal.watchesErrors()) {
      spec.commandLine().getErr().println(word);
    }
  }

  private PrintWriter out() {
    return spec.commandLine().getOut();
  }
}
