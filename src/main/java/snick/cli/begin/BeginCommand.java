package snick.cli.begin;

import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.bench.TouchCommand;
import snick.cli.bench.VirtualCuts;
import snick.cli.option.DataCommand;
import snick.cli.option.Setting;
import snick.cli.terminal.ExitCode;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.daemon.link.HostTime;
import snick.daemon.link.Introduction;
import snick.frame.text.RefusedLine;
import snick.port.PortAddress;
import snick.port.Ports;

/** Leads from a board that was just plugged in to a first trusted cut. */
@Command(
    name = "begin",
    description = {
      "From a board that is plugged in to a first cut, step by step: which port, what it speaks, does"
          + " the reading move, is it healthy, calibrate, verify, cut. Each step is a command that is"
          + " shown and can be typed alone. Enter takes what stands in brackets, q stops."
    },
    footer = {
      "  snick begin",
      "  snick begin /dev/ttyACM0",
      "  snick begin --virtual      no hardware needed",
      "",
      "Guard the line, clamp the blade, wear a cut-resistant glove and eye protection."
    })
public final class BeginCommand extends DataCommand implements Runnable {
  private static final int PATIENCE_SECONDS = 30;
  private static final String ANYWHERE = "anywhere";
  private static final int BITS_PER_SECOND = 115_200;
  private static final double USUAL_TOLERANCE = 0.01;
  private static final Pattern BARE_SIZE = Pattern.compile("(\\d{1,5}(?:\\.\\d{1,4})?)g?");

  @Parameters(
      paramLabel = "PORT",
      arity = "0..1",
      description =
          "Serial device, part of a port's name, or tcp://HOST:PORT (default: as set, else asked).")
  private Optional<String> given = Optional.empty();

  @Option(names = "--virtual", description = "On the built-in virtual rig.")
  private boolean virtual;

  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "115200",
      description = "Bits per second of a serial port (default: ${DEFAULT-VALUE}).")
  private int bitsPerSecond = BITS_PER_SECOND;

  private Answers answers;

  /** Rig as the steps are told of it. */
  private final List<String> rig = new ArrayList<>();

  private int polarity = 1;
  private final CountDownLatch endSaid = new CountDownLatch(1);
  private volatile boolean stopped;

  @Override
  public void run() {
    if (virtual && given.isPresent()) {
      throw Refusal.usage("name a PORT or --virtual, not both");
    }
    answers = new Answers(new FileInputStream(FileDescriptor.in), out());
    say("Seven steps; Enter goes on, q stops. No blade in the rig until the last.");
    say("");
    chooseRig();
    touch();
    step("4. Is the rig healthy at rest? Leave it alone.", command("doctor", "--seconds", "10"));
    calibrate();
    try {
      Runtime.getRuntime().addShutdownHook(new Thread(this::waitForTheEnd, "end"));
      cut();
      sayTheEnd();
    } finally {
      endSaid.countDown();
    }
  }

  private void sayTheEnd() {
    say("");
    say("Done. What was cut:");
    say("   $ " + new Step(List.of("cuts", "list", "--data", data.path().toString())).typed());
    if (!virtual) {
      say("Record from now on with:");
      say("   $ " + new Step(command("run")).typed());
    }
  }

  /** Ctrl-C ends the last step and this program alike; what is to be said last is still said. */
  private void waitForTheEnd() {
    stopped = true;
    try {
      endSaid.await(PATIENCE_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void chooseRig() {
    if (virtual) {
      say("1. The rig is the virtual one. 2. It speaks the wire protocol.");
      rig.add("--virtual");
      return;
    }
    String port = given.or(() -> data.settings().get(Setting.RIG)).orElseGet(this::askForPort);
    rig.add(port);
    if (bitsPerSecond != BITS_PER_SECOND) {
      rig.addAll(List.of("--baud", Integer.toString(bitsPerSecond)));
    }
    Introduction who = introduction(port);
    say("2. On " + port + ": " + who.words());
    who.refused().filter(line -> who.readings() == 0).ifPresent(this::askForColumns);
    if (who.hello().isEmpty() && who.readings() == 0 && who.refused().isEmpty()) {
      throw Refusal.unavailable(
          "nothing that is understood comes from %s; is the sketch loaded, the bit rate"
              + " right (--baud)? Its text can be seen with:"
              + " snick capture %s look.capture --seconds 5",
          port, port);
    }
  }

  private String askForPort() {
    List<Ports.Candidate> candidates = candidates();
    if (candidates.isEmpty()) {
      throw Refusal.unavailable(
          "no serial port is here; plug the board in, or try without: snick begin --virtual");
    }
    say("1. Ports:");
    for (int i = 0; i < candidates.size(); i++) {
      say(
          "   %s  %s  %s"
              .formatted(i + 1, candidates.get(i).path(), candidates.get(i).description()));
    }
    int chosen = number(answers.to("Which is the rig?", "1"), candidates.size());
    return candidates.get(chosen - 1).path().toString();
  }

  private static int number(String answer, int most) {
    if (answer.matches("\\d{1,3}")
        && Integer.parseInt(answer) >= 1
        && Integer.parseInt(answer) <= most) {
      return Integer.parseInt(answer);
    }
    throw Refusal.usage("'" + answer + "' is none of 1 to " + most);
  }

  private List<Ports.Candidate> candidates() {
    try {
      return new Ports(bitsPerSecond).candidates();
    } catch (IOException e) {
      throw Refusal.failed("the serial devices cannot be listed: " + e.getMessage(), e);
    }
  }

  private Introduction introduction(String port) {
    try {
      return Introduction.of(new Ports(bitsPerSecond), PortAddress.parse(port), HostTime.REAL);
    } catch (IllegalArgumentException e) {
      throw Refusal.usage(e.getMessage());
    } catch (IOException e) {
      throw Refusal.unavailable(e.getMessage());
    }
  }

  private void askForColumns(RefusedLine line) {
    String usual = line.options().isEmpty() ? "" : line.options().get(0);
    String columns = answers.to("What are the columns, as in time_ms,counts,-?", usual);
    if (columns.isEmpty()) {
      throw Refusal.usage("the columns of its text must be known: --columns time_ms,counts,-");
    }
    rig.addAll(List.of("--columns", columns));
  }

  private void touch() {
    polarity =
        step("3. Does the reading move? It asks you to press.", command("touch"))
                == TouchCommand.FALLS
            ? -1
            : 1;
  }

  private void calibrate() {
    String words =
        answers.to(
            "5. Which masses do you have, for example 50g 100g:M1?",
            virtual ? "50g:M1 100g:M1 200g:M1" : "");
    List<String> masses = words.isEmpty() ? List.of() : List.of(words.split("[\\s,]+"));
    if (masses.isEmpty()) {
      say("Without masses cuts stay in counts: they can be compared, and calibrated later.");
      return;
    }
    List<String> arguments = command("calibrate", "--runs", "1", "--hold", "0", "--fresh");
    masses.forEach(mass -> arguments.addAll(List.of("--mass", stated(mass))));
    arguments.addAll(place());
    if (polarity < 0) {
      arguments.addAll(List.of("--polarity", "-1"));
    }
    step("", arguments);
    List<String> verify = command("verify");
    verify.addAll(List.of("--mass", stated(masses.get(masses.size() - 1))));
    step("6. Verify with the mass you named last.", verify);
  }

  /** A mass without a class is taken for one of the kitchen: good to a hundredth. */
  private static String stated(String mass) {
    Matcher size = BARE_SIZE.matcher(mass);
    return size.matches()
        ? String.format(
            Locale.ROOT,
            "%sg:tolerance=%.3fg",
            size.group(1),
            Double.parseDouble(size.group(1)) * USUAL_TOLERANCE)
        : mass;
  }

  /** Where the rig stands, unless the settings say it; a place not stated is not made up. */
  private List<String> place() {
    if (data.settings().get(Setting.LATITUDE).isPresent()) {
      return List.of();
    }
    String place = answers.to("   Latitude in degrees and height in m, as in 48.1 520?", ANYWHERE);
    if (place.equals(ANYWHERE)) {
      return List.of("--anywhere");
    }
    List<String> parts = List.of(place.split("[\\s,]+"));
    List<String> words = new ArrayList<>(List.of("--latitude", parts.get(0)));
    if (parts.size() > 1) {
      words.addAll(List.of("--height", parts.get(1)));
    }
    return words;
  }

  private void cut() {
    if (!virtual) {
      step(
          "7. The first cut: glove and glasses on, blade clamped. Ctrl-C if there is none.",
          command("run", "--cuts", "1", "--no-http"));
      return;
    }
    try (VirtualCuts cuts = VirtualCuts.begin()) {
      rig.set(0, cuts.port());
      step("7. The first cut, by the virtual rig.", command("run", "--cuts", "1", "--no-http"));
    }
  }

  private List<String> command(String name, String... options) {
    List<String> arguments = new ArrayList<>(List.of(name));
    arguments.addAll(rig);
    arguments.addAll(List.of(options));
    arguments.addAll(List.of("--data", data.path().toString()));
    return arguments;
  }

  /** Does a step as often as the person wants; its last exit status. */
  private int step(String what, List<String> arguments) {
    Step step = new Step(arguments);
    say("");
    if (!what.isEmpty()) {
      say(what);
    }
    say("   $ " + step.typed());
    while (true) {
      int status = step.run();
      boolean good = status == ExitCode.OK || status == TouchCommand.FALLS;
      if (good || stopped) {
        return status;
      }
      String next = answers.to("That did not pass. Again (a), or go on all the same (g)?", "a");
      if (next.equals("g")) {
        return status;
      }
    }
  }

  private void say(String text) {
    println(PlainText.inert(text));
    out().flush();
  }
}
