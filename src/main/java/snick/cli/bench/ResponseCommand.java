package snick.cli.bench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import snick.cli.option.ReadingCommand;
import snick.cli.terminal.JsonLine;
import snick.cli.terminal.Numbers;
import snick.cli.terminal.PlainText;
import snick.cli.terminal.Refusal;
import snick.cli.terminal.WallTime;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.exchange.json.ResponseJson;
import snick.store.StoreReader;
import snick.store.record.StoredResponse;

/** Says how rigs answer a sudden fall, as learned from their cuts. */
@Command(
    name = "response",
    description = {
      "Say how a rig answers a sudden fall of force: at what frequency it rings and how fast that dies"
          + " away. Learned while recording, from a rig's 5th, 10th, 20th, 40th … cut on; every"
          + " result names the response known then. Once a ring is known, the uncertainty of a force takes its lag from it."
    },
    footer = {
      "  snick response                      what is known of each rig now",
      "  snick response 51a0000000000001 --all",
      "  snick response --json               with the shape of the fall, value by value"
    })
public final class ResponseCommand extends ReadingCommand {

  @Parameters(arity = "0..1", paramLabel = "RIG", description = "Only this one (default: all).")
  private Optional<String> rig;

  @Option(names = "--all", description = "Also what was known before.")
  private boolean all;

  @Option(names = "--json", description = "One JSON object a line for each.")
  private boolean json;

  @Override
  protected void read(StoreReader store) {
    List<StoredResponse> chosen =
        store.responses().stream()
            .filter(r -> rig.isEmpty() || rig.get().equals(r.deviceId()))
            .filter(r -> all || isCurrent(r, store))
            .toList();
    if (json) {
      chosen.forEach(r -> JsonLine.print(out(), object(r, isCurrent(r, store))));
    } else if (chosen.isEmpty()) {
      none();
    } else {
      chosen.forEach(r -> println(PlainText.inert(words(r))));
    }
  }

  private static boolean isCurrent(StoredResponse r, StoreReader store) {
    return store
        .currentResponse(r.deviceId(), r.nominalRate())
        .map(current -> current.response().equals(r.response()))
        .orElse(false);
  }

  private void none() {
    if (rig.isPresent()) {
      throw Refusal.badInput(
          data.in(
              "nothing is known of a rig "
                  + rig.get()
                  + " yet: it takes 5 cuts that parted; 'snick response' lists what is known"));
    }
    println(data.in("No response is known yet: it takes 5 cuts of a rig that parted."));
  }

  private String words(StoredResponse stored) {
    Response response = stored.response();
    return "%s%s: %s, from %s falls (cuts %s to %s), since %s, %s"
        .formatted(
            stored.deviceId(),
            stored.nominalRate().map(rate -> " at " + rate.hertz() + " samples/s").orElse(""),
            response.ring().map(ResponseCommand::words).orElseGet(() -> withoutRing(response)),
            response.falls(),
            stored.cutIds().stream().min(Long::compare).orElse(0L),
            stored.cutIds().stream().max(Long::compare).orElse(0L),
            WallTime.minute(stored.made()),
            response.id());
  }

  private String withoutRing(Response response) {
    String none = "no ring shows below half the sampling rate";
    return response.swingsUnseen()
        ? data.in(
            none
                + ", but falls differ as if the fixture swings faster (what to do: snick doctor PORT)")
        : none;
  }

  private static String words(Ring ring) {
    return "rings at %s Hz, damping ratio %s, down to a tenth in %s s"
        .formatted(
            Numbers.plusMinus(ring.hertz(), 2 * ring.hertzUncertainty()),
            Numbers.plusMinus(
                ring.dampingRatio(), 2 * ring.dampingRatio() * ring.dampingLogUncertainty()),
            Numbers.fixed(Math.log(10) * ring.decaySeconds(), 2));
  }

  private static Map<String, Object> object(StoredResponse stored, boolean current) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("id", stored.response().id());
    object.put("device", stored.deviceId());
    stored.nominalRate().ifPresent(rate -> object.put("nominal_rate_hz", rate.hertz()));
    object.put("made", stored.made().toString());
    object.put("current", current);
    object.put("falls", stored.response().falls());
    object.put("cuts", stored.cutIds());
    object.put("later_unlikeness", stored.response().laterUnlikeness());
    stored.response().ring().ifPresent(ring -> put(ring, object));
    stored.response().shape().ifPresent(shape -> object.putAll(ResponseJson.of(shape)));
    return object;
  }

  private static void put(Ring ring, Map<String, Object> object) {
    object.put("resonance_hz", ring.hertz());
    object.put("u_resonance_hz", ring.hertzUncertainty());
    object.put("damping_ratio", ring.dampingRatio());
    object.put("u_ln_damping_ratio", ring.dampingLogUncertainty());
  }
}
