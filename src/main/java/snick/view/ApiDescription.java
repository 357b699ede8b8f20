package snick.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import snick.json.AttributeJson;
import snick.json.Json;
import snick.quantity.Attribute;

/** The OpenAPI document: as it was written, with what is told of a cut filled in. */
final class ApiDescription {
  private static final List<String> CUTS = List.of("Cut", "CutWithTrace");

  private ApiDescription() {}

  /** The document in {@code written}, whose cuts have these attributes besides what it says. */
  static String of(byte[] written, List<? extends Attribute<?>> ofCut) {
    Map<String, Object> document = Json.object(written);
    Map<String, Object> schemas = member(member(document, "components"), "schemas");
    for (String cut : CUTS) {
      Map<String, Object> properties = new LinkedHashMap<>(AttributeJson.properties(ofCut));
      properties.putAll(member(member(schemas, cut), "properties"));
      member(schemas, cut).put("properties", properties);
    }
    return Json.text(document);
  }

  @SuppressWarnings("unchecked") // an object of JSON has names for keys
  private static Map<String, Object> member(Map<String, Object> object, String name) {
    return (Map<String, Object>) object.get(name);
  }
}
