package snick.cli.exchange;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.Table;
import snick.cli.terminal.WallTime;
import snick.store.StoreReader;
import snick.store.record.Credit;
import snick.store.record.Origin;

/** Lists what was taken in from elsewhere. */
@Command(
    name = "list",
    description = "List packages and logs that were taken into the store.",
    footer = {"  snick package list", "  snick package list --data /srv/snick"})
final class PackageListCommand extends ReadingCommand {

  @Override
  protected void read(StoreReader store) {
    List<Origin.Taken> origins = store.origins();
    PrintWriter out = out();
    if (origins.isEmpty()) {
      out.println(data.in("Nothing was taken in yet; take a package in: snick import FILE"));
      return;
    }
    Table table =
        new Table("TAKEN IN", "KIND", ">CUTS", "NAME", "TITLE", "BY", "LICENCE", "SHA-256");
    for (Origin.Taken taken : origins) {
      Optional<Credit> credit = taken.origin().credits().stream().findFirst();
      table.row(
          WallTime.of(taken.takenIn()),
          taken.origin().kind(),
          taken.cuts(),
          taken.origin().name(),
          taken.origin().document(),
          credit.map(c -> String.join(", ", c.contributors())).orElse(""),
          credit.flatMap(Credit::licence).orElse(credit.isPresent() ? "none" : ""),
          taken.origin().sha256().substring(0, 12));
    }
    table.print(out);
  }
}
