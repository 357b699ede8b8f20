package snick.cli.exchange;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.TypedCommand;
import snick.exchange.check.PackageCheck;
import snick.exchange.check.PackageReport;
import snick.exchange.json.RefusedPackage;

/** Checks a package without a store. */
@Command(
    name = "check",
    description =
        "Check a package: digests, tables, forces, and the stated peaks against the raw traces.",
    footer = {"  snick package check friend.zip"})
final class PackageCheckCommand extends TypedCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "Package, zip or folder.")
  private Path file;

  @Override
  public Integer call() {
    PackageReport report;
    try {
      report = StoppedByHand.during("check", err(), watch -> PackageCheck.of(file, watch));
    } catch (RefusedPackage e) {
      throw Refusal.badInput(e.getMessage());
    } catch (NoSuchFileException e) {
      throw Refusal.badInput("no file " + file);
    } catch (IOException e) {
      throw Refusal.failed(file + " cannot be read: " + FileReason.of(e), e);
    }
    PackageText.print(out(), report);
    return report.holds() ? ExitCode.OK : ExitCode.NOT_PASSED;
  }
}
