package quadrille.document;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ContainerNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Changes a JSON document at random, so that a reader and a schema can be asked about it. */
public final class JsonChanges {

  private JsonChanges() {}

  /**
   * Changes one place.
   *
   * @param donor another document of the kind, whose values are often taken, since they may well be
   *     allowed
   * @param keys that may be put where none is
   * @param value put where no value is taken from the donor
   */
  public static void change(
      JsonNode root, JsonNode donor, List<String> keys, JsonNode value, Random random) {
    List<ContainerNode<?>> containers = new ArrayList<>();
    collect(root, containers);
    ContainerNode<?> container = containers.get(random.nextInt(containers.size()));
    if (container instanceof ObjectNode object) {
      List<String> here = new ArrayList<>();
      object.fieldNames().forEachRemaining(here::add);
      if (here.isEmpty() || random.nextInt(4) == 0) {
        here.addAll(keys);
      }
      String key = here.get(random.nextInt(here.size()));
      if (random.nextInt(4) == 0) {
        object.remove(key);
      } else {
        List<JsonNode> fitting = random.nextInt(3) > 0 ? donor.findValues(key) : List.of();
        object.set(key, fitting.isEmpty() ? value : fitting.get(random.nextInt(fitting.size())));
      }
    } else if (container instanceof ArrayNode array) {
      switch (random.nextInt(array.isEmpty() ? 1 : 4)) {
        case 0 -> array.add(value);
        case 1 -> array.add(array.get(random.nextInt(array.size())).deepCopy());
        case 2 -> array.remove(random.nextInt(array.size()));
        default -> array.set(random.nextInt(array.size()), value);
      }
    }
  }

  private static void collect(JsonNode node, List<ContainerNode<?>> containers) {
    if (node instanceof ContainerNode<?> container) {
      containers.add(container);
      container.forEach(child -> collect(child, containers));
    }
  }
}
