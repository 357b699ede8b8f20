package snick.exchange.json;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
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
    List<Object> recordings = new ArrayList<>();
    for (Item item : items) {
      recordings.add(one(recordings.size() + 1, item, personal));
    }
    return Json.object("recordings", recordings, "responses", ResponseJson.of(responses));
  }

  private static Map<String, Object> one(int number, Item item, boolean personal) {
    Recording r = item.recording();
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("recording", number);
    json.put("device_id", r.deviceId());
    json.put("firmware", r.firmware());
    if (personal) {
      json.put("source", r.source());
    }
    json.put("form", r.form().name().toLowerCase(Locale.ROOT));
    json.put("started_at", r.startedAt().toString());
    r.gain().ifPresent(gain -> json.put("gain", gain));
    r.nominalRate().ifPresent(rate -> json.put("nominal_rate_hz", rate.hertz()));
    json.put("decimals", r.decimals());
    item.clock()
        .ifPresent(
            clock -> {
              json.put("device_zero", clock.deviceZero().toString());
              json.put("rate_error_ppm", clock.rateErrorPpm());
            });
    return json;
  }

  public static List<Item> read(JsonNode root) {
    List<Item> items = new ArrayList<>();
    for (JsonNode node : root.member("recordings").elements()) {
      if (node.member("recording").whole() != items.size() + 1) {
        throw new RefusedPackage(
            node.place() + ": recordings are not numbered from 1; ask the sender");
      }
      items.add(node.as(RigJson::item));
    }
    return items;
  }

  private static Item item(JsonNode node) {
    Recording recording =
        new Recording(
            node.member("device_id").plainText(200),
            node.member("firmware").plainText(200),
            node.member("source").present() ? node.member("source").plainText(1000) : NO_SOURCE,
            node.member("form").word(Recording.Form.class),
            node.member("started_at").instant(),
            node.member("gain").optionalInteger(),
            node.member("nominal_rate_hz").optionalReal().stream()
                .mapToObj(SampleRate::new)
                .findFirst(),
            node.member("decimals").integer());
    JsonNode zero = node.member("device_zero");
    Optional<HostClock> clock =
        zero.present()
            ? Optional.of(new HostClock(zero.instant(), node.member("rate_error_ppm").real()))
            : Optional.empty();
    return new Item(recording, clock);
  }
}
