package snick.exchange.json;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import snick.cut.response.Response;
import snick.cut.response.Ring;
import snick.cut.response.StepShape;
import snick.json.Json;
import snick.json.JsonForm;
import snick.json.JsonNode;
import snick.quantity.SampleRate;
import snick.store.record.StoredResponse;

/** Responses of rigs in {@code rig.json}: what results were derived with, value by value. */
public final class ResponseJson {
  private static final int MOST_VALUES = 10_000;

  private static final JsonForm<Ring> RING =
      JsonForm.of(
          Ring.class,
          JsonForm.member("resonance_hz", JsonNode::real),
          JsonForm.member("u_resonance_hz", JsonNode::real),
          JsonForm.member("damping_ratio", JsonNode::real),
          JsonForm.member("u_ln_damping_ratio", JsonNode::real),
          JsonForm.member("cosine", JsonNode::real),
          JsonForm.member("sine", JsonNode::real));

  private ResponseJson() {}

  static List<Object> of(Collection<StoredResponse> responses) {
    return new ArrayList<>(responses.stream().map(ResponseJson::one).toList());
  }

  private static Map<String, Object> one(StoredResponse stored) {
    Response response = stored.response();
    Map<String, Object> json =
        Json.object(
            "response", response.id(),
            "device_id", stored.deviceId(),
            "nominal_rate_hz", stored.nominalRate().map(SampleRate::hertz),
            "made_at", stored.made().toString(),
            "falls", response.falls());
    response.ring().ifPresent(ring -> json.putAll(RING.write(ring)));
    response.shape().ifPresent(shape -> json.putAll(of(shape)));
    return json;
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
    for (JsonNode node : root.member("responses").elementsIfAny()) {
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
    return new StoredResponse(
        node.member("device_id").plainText(200),
        node.member("nominal_rate_hz").optional(RigJson::rate),
        node.member("made_at").instant(),
        new Response(
            node.member("falls").integer(),
            node.member("resonance_hz").optional(hertz -> RING.read(node)),
            node.member("first_s").optional(first -> shape(first, node))),
        List.of());
  }

  private static StepShape shape(JsonNode first, JsonNode node) {
    return new StepShape(
        first.real(),
        node.member("step_s").real(),
        reals(node.member("shares")),
        reals(node.member("u_shares")));
  }

  private static double[] reals(JsonNode list) {
    List<JsonNode> values = list.elements();
    if (values.size() > MOST_VALUES) {
      throw new RefusedPackage(list.place() + ": over " + MOST_VALUES + " values");
    }
    return values.stream().mapToDouble(JsonNode::real).toArray();
  }
}
