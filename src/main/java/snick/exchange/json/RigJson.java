package snick.exchange.json;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.json.Json;
import snick.json.JsonForm;
import snick.json.JsonNode;
import snick.quantity.SampleRate;
import snick.store.record.HostClock;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;

/** {@code rig.json}: the recordings that cuts come from, and what the rig said of itself. */
public final class RigJson {
  public static final String FILE = "rig.json";
  static final String NO_SOURCE = "not in the package";

  private static final JsonForm<Recording> RECORDING =
      JsonForm.of(
          Recording.class,
          JsonForm.member("device_id", id -> id.plainText(200)),
          JsonForm.member("firmware", said -> said.plainText(200)),
          JsonForm.member(
              "source",
              source -> source.optional(place -> place.plainText(1000)).orElse(NO_SOURCE)),
          JsonForm.word("form", Recording.Form.class),
          JsonForm.instant("started_at"),
          JsonForm.member("gain", JsonNode::optionalInteger),
          JsonForm.optional("nominal_rate_hz", SampleRate::hertz, RigJson::rate),
          JsonForm.member("decimals", JsonNode::integer));

  private static final JsonForm<HostClock> CLOCK =
      JsonForm.of(
          HostClock.class,
          JsonForm.instant("device_zero"),
          JsonForm.member("rate_error_ppm", JsonNode::real));

  private RigJson() {}

  /**
   * A recording in a package; its number is its place in the list, from 1.
   *
   * @param recording the recording
   * @param clock how its device clock lies on the host's, if known
   */
  public record Item(Recording recording, Optional<HostClock> clock) {}

  public static Map<String, Object> of(
      List<Item> items, Collection<StoredResponse> responses, boolean personal) {
    return Json.object(
        "recordings", Numbered.write(items, (number, item) -> one(number, item, personal)),
        "responses", ResponseJson.of(responses));
  }

  private static Map<String, Object> one(int number, Item item, boolean personal) {
    Map<String, Object> json = Json.object("recording", number);
    json.putAll(RECORDING.write(item.recording()));
    item.clock().ifPresent(clock -> json.putAll(CLOCK.write(clock)));
    return personal ? json : Json.without(json, "source");
  }

  public static List<Item> read(JsonNode root) {
    return Numbered.read(root, "recordings", "recording", RigJson::item);
  }

  private static Item item(JsonNode node) {
    return new Item(
        RECORDING.read(node), node.member("device_zero").optional(zero -> CLOCK.read(node)));
  }

  static SampleRate rate(JsonNode hertz) {
    return new SampleRate(hertz.real());
  }
}
