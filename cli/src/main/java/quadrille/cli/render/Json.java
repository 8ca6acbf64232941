package quadrille.cli.render;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.StopQuestions;

/** JSON the same on every machine: two spaces, line feeds, keys in the order they are put. */
final class Json {

  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .build();
  private static final ObjectWriter WRITER = MAPPER.writer(printer());

  private Json() {}

  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }

  /** The text, ended by a line feed. */
  static String write(ObjectNode node) {
    try {
      return WRITER.writeValueAsString(node) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("A tree in memory could not be written.", impossible);
    }
  }

  /** The text on one line, without a line feed at its end. */
  static String line(ObjectNode node) {
    try {
      return MAPPER.writeValueAsString(node);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("A tree in memory could not be written.", impossible);
    }
  }

  /** A document that we wrote ourselves, as a tree; its numbers stay as they are written. */
  static ObjectNode tree(String written) {
    try {
      return MAPPER.readValue(written, ObjectNode.class);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("What was written is no JSON.", impossible);
    }
  }

  /** At most so many decimals, written without an exponent. */
  static BigDecimal round(double value, int decimals) {
    BigDecimal rounded =
        BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).stripTrailingZeros();
    return rounded.scale() < 0 ? rounded.setScale(0, RoundingMode.UNNECESSARY) : rounded;
  }

  /** What is asked at the head of a visit: as in a plan file, the words beside the facts. */
  static void stopQuestions(ObjectNode node, List<StopQuestion> questions) {
    ArrayNode array = node.putArray("stopQuestions");
    for (StopQuestion question : questions) {
      ObjectNode one = array.addObject();
      StopQuestions.fields(question).forEach((key, value) -> one.put(key, value.toString()));
      one.put("question", MindWords.of(question));
    }
  }

  private static DefaultPrettyPrinter printer() {
    Separators separators =
        Separators.createDefaultInstance()
            .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
            .withArrayEmptySeparator("")
            .withObjectEmptySeparator("");
    return new DefaultPrettyPrinter(separators).withObjectIndenter(new DefaultIndenter("  ", "\n"));
  }
}
