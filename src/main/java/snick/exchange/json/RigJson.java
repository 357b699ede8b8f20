package snick.exchange.json;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snick.json.Json;
import snick.json.JsonNode;
import snick.quantity.SampleRate;
import snick.store.record.HostClock;
import snick.store.record.Recording;
import snick.store.record.StoredResponse;

/** {@code rig.json}: the recordings that cuts come from, and what the rig said of itself. */
public final class RigJson {
  public static final String FILE = "rig.json";
  static final String NO_SOURCE = "not in the package";

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
    Recording r = item.recording();
    return Json.object(
        "recording", number,
        "device_id", r.deviceId(),
        "firmware", r.firmware(),
        "source", Json.when(personal, r.source()),
        "form", r.form().word(),
        "started_at", r.startedAt().toString(),
        "gain", r.gain(),
        "nominal_rate_hz", r.nominalRate().map(SampleRate::hertz),
        "decimals", r.decimals(),
        "device_zero", item.clock().map(clock -> clock.deviceZero().toString()),
        "rate_error_ppm", item.clock().map(HostClock::rateErrorPpm));
  }

  public static List<Item> read(JsonNode root) {
    return Numbered.read(root, "recordings", "recording", RigJson::item);
  }

  private static Item item(JsonNode node) {
    Recording recording =
        new Recording(
            node.member("device_id").plainText(200),
            node.member("firmware").plainText(200),
            node.member("source").optional(source -> source.plainText(1000)).orElse(NO_SOURCE),
            node.member("form").word(Recording.Form.class),
            node.member("started_at").instant(),
            node.member("gain").optionalInteger(),
            node.member("nominal_rate_hz").optional(RigJson::rate),
            node.member("decimals").integer());
    return new Item(recording, node.member("device_zero").optional(zero -> clock(zero, node)));
  }

  private static HostClock clock(JsonNode zero, JsonNode node) {
    return new HostClock(zero.instant(), node.member("rate_error_ppm").real());
  }

  static SampleRate rate(JsonNode hertz) {
    return new SampleRate(hertz.real());
  }
}
