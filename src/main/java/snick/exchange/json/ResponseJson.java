package snick.exchange.json;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.cut.response.StepShape;
import snick.json.Json;
import snick.json.JsonNode;
import snick.quantity.SampleRate;
import snick.store.record.StoredResponse;

/** Responses of rigs in {@code rig.json}: what results were derived with, value by value. */
public final class ResponseJson {
  private static final int MOST_VALUES = 10_000;

  private ResponseJson() {}

  static List<Object> of(Collection<StoredResponse> responses) {
    return new ArrayList<>(responses.stream().map(ResponseJson::one).toList());
  }

  private static Map<String, Object> one(StoredResponse stored) {
    Response response = stored.response();
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("response", response.id());
    json.put("device_id", stored.deviceId());
    stored.nominalRate().ifPresent(rate -> json.put("nominal_rate_hz", rate.hertz()));
    json.put("made_at", stored.made().toString());
    json.put("falls", response.falls());
    response.ring().ifPresent(ring -> put(ring, json));
    response.shape().ifPresent(shape -> json.putAll(of(shape)));
    return json;
  }

  private static void put(Ring ring, Map<String, Object> json) {
    json.put("resonance_hz", ring.hertz());
    json.put("u_resonance_hz", ring.hertzUncertainty());
    json.put("damping_ratio", ring.dampingRatio());
    json.put("u_ln_damping_ratio", ring.dampingLogUncertainty());
    json.put("cosine", ring.cosine());
    json.put("sine", ring.sine());
  }

  /** A shape, value by value. */
  public static Map<String, Object> of(StepShape shape) {
    return Json.object(
        "first_s", shape.firstSeconds(),
        "step_s", shape.stepSeconds(),
        "shares", IntStream.range(0, shape.size()).mapToObj(shape::share).toList(),
        "u_shares", IntStream.range(0, shape.size()).mapToObj(shape::uncertainty).toList());
  }

  /** By id; each must be what its figures give. */
  public static Map<String, StoredResponse> read(JsonNode root) {
    Map<String, StoredResponse> found = new LinkedHashMap<>();
    JsonNode responses = root.member("responses");
    for (JsonNode node : responses.present() ? responses.elements() : List.<JsonNode>of()) {
      StoredResponse stored = node.as(ResponseJson::stored);
      String id = node.member("response").text();
      if (!id.equals(stored.response().id())) {
        throw new RefusedPackage(
            node.place()
                + ": response "
                + RefusedPackage.shown(id)
                + " has other figures than its name stands for; ask the sender");
      }
      found.put(id, stored);
    }
    return found;
  }

  private static StoredResponse stored(JsonNode node) {
    Optional<Ring> ring =
        node.member("resonance_hz").present()
            ? Optional.of(
                new Ring(
                    node.member("resonance_hz").real(),
                    node.member("u_resonance_hz").real(),
                    node.member("damping_ratio").real(),
                    node.member("u_ln_damping_ratio").real(),
                    node.member("cosine").real(),
                    node.member("sine").real()))
            : Optional.empty();
    Optional<StepShape> shape =
        node.member("first_s").present()
            ? Optional.of(
                new StepShape(
                    node.member("first_s").real(),
                    node.member("step_s").real(),
                    reals(node.member("shares")),
                    reals(node.member("u_shares"))))
            : Optional.empty();
    return new StoredResponse(
        node.member("device_id").plainText(200),
        node.member("nominal_rate_hz").optionalReal().stream()
            .mapToObj(SampleRate::new)
            .findFirst(),
        node.member("made_at").instant(),
        new Response(node.member("falls").integer(), ring, shape),
        List.of());
  }

  private static double[] reals(JsonNode list) {
    List<JsonNode> values = list.elements();
    if (values.size() > MOST_VALUES) {
      throw new RefusedPackage(list.place() + ": over " + MOST_VALUES + " values");
    }
    return values.stream().mapToDouble(JsonNode::real).toArray();
  }
}
