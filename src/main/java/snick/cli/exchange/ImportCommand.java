package snick.cli.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.DataCommand;
import snick.cli.option.OpenedStore;
import snick.cli.option.StreamChoice;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.FileReason;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.daemon.Pipeline;
import snick.exchange.LogImport;
import snick.exchange.PackageImport;
import snick.exchange.json.RefusedPackage;
import snick.port.RecordedSource;
import snick.store.Store;
import snick.store.database.StoreException;
import snick.store.record.Origin;

/** Takes packages of others, old logs and captures into one's own store. */
@Command(
    name = "import",
    description = {
      "Take a package, a text log or a capture into the store.",
      "A package is checked first; where its raw traces do not bear out what it states, it is refused."
    },
    footer = {
      "  snick import friend.zip",
      "  snick import friend.zip --as friend",
      "  snick import old-log.csv --rig bench --started 2025-11-02T18:00:00Z"
    })
public final class ImportCommand extends DataCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "Package (zip or folder), text log or capture.")
  private Path file;

  @Option(
      names = "--as",
      paramLabel = "NAME",
      description = "Put NAME/ before the package's names of sessions, blades and lots.")
  private Optional<String> prefix;

  @Option(
      names = "--despite-differences",
      description = "Store a package also where its traces do not bear out what it states.")
  private boolean despiteDifferences;

  @Option(
      names = "--rig",
      paramLabel = "NAME",
      description = "Of a log: the rig it is of (default: what the device calls itself).")
  private Optional<String> rig;

  @Option(
      names = "--started",
      paramLabel = "TIME",
      description =
          "Of a log: UTC time of its first sample (default: so that it ends when the"
              + " file was last changed).")
  private Optional<String> started;

  @Mixin private StreamChoice streamChoice;

  @Override
  public Integer call() {
    try {
      return isPackage() ? importPackage() : importLog();
    } catch (RefusedPackage e) {
      throw Refusal.badInput(e.getMessage());
    } catch (NoSuchFileException e) {
      throw Refusal.badInput("no file " + file);
    } catch (IOException e) {
      throw Refusal.failed(
          file + " cannot be read: " + FileReason.of(e) + "; nothing was stored", e);
    } catch (StoreException e) {
      throw Refusal.failed("nothing was stored: " + e.getMessage(), e);
    }
  }

  /** A folder, or a file that begins like a zip file. */
  private boolean isPackage() throws IOException {
    BasicFileAttributes about = Files.readAttributes(file, BasicFileAttributes.class);
    if (about.isOther()) {
      throw Refusal.badInput(
          file + " is a device or a pipe, which may never end; save what it gives in a file first");
    }
    if (about.isDirectory()) {
      return true;
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] start = in.readNBytes(2);
      return start.length == 2 && start[0] == 'P' && start[1] == 'K';
    }
  }

  private int importPackage() throws IOException {
    PackageImport.Result result;
    try (Store store = OpenedStore.toWrite(data)) {
      result =
          StoppedByHand.during(
              "import",
              err(),
              watch -> new PackageImport(file, prefix, watch).into(store, despiteDifferences));
    }
    PackageText.print(out(), result.report());
    if (result.stored().isEmpty()) {
      println("Nothing was stored. To store it all the same: --despite-differences");
      return ExitCode.NOT_PASSED;
    }
    told(result.stored().get());
    return ExitCode.OK;
  }

  private void told(Origin.Outcome outcome) {
    if (outcome.before()) {
      println("It was taken in before; nothing changed.");
    } else {
      String known = outcome.knownCuts() > 0 ? outcome.knownCuts() + " were there already." : "";
      println((outcome.newCuts() + " new cuts stored. " + known).strip());
    }
  }

  private int importLog() throws IOException {
    Pipeline.Settings stream = streamChoice.settings();
    LogImport log =
        new LogImport(
            file.getFileName().toString(), this::bytes, stream.assumedRate(), stream.text());
    LogImport.Facts facts = log.look();
    if (facts.samples() == 0) {
      throw Refusal.badInput(file + facts.whyNoReadings());
    }
    facts.recognition().ifPresent(words -> err().println("snick: " + PlainText.inert(words)));
    if (facts.cuts() == 0) {
      throw Refusal.badInput(file + " holds no cuts; look at it with: snick analyze " + file);
    }
    String deviceId =
        rig.or(facts::deviceId)
            .orElseThrow(
                () ->
                    Refusal.usage(
                        "a text log does not say which rig it is from; name it, as in --rig bench"));
    try (Store store = OpenedStore.toWrite(data)) {
      told(log.into(store, facts, deviceId, start(facts)));
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    }
    return ExitCode.OK;
  }

  private Instant start(LogImport.Facts facts) throws IOException {
    try {
      return started.isPresent()
          ? Instant.parse(started.get())
          : Files.getLastModifiedTime(file).toInstant().minus(facts.length());
    } catch (DateTimeException e) {
      throw Refusal.usage(
          "--started " + started.orElse("") + " is no UTC time such as 2025-11-02T18:00:00Z");
    }
  }

  private LogImport.Bytes bytes() throws IOException {
    RecordedSource source = RecordedSource.of(Files.newInputStream(file));
    return new LogImport.Bytes() {
      @Override
      public int read(byte[] buffer) throws IOException {
        int count = source.read(buffer);
        return source.ended() ? -1 : count;
      }

      @Override
      public void close() throws IOException {
        source.close();
      }
    };
  }
}
