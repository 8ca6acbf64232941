package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import nu.validator.client.EmbeddedValidator;

/** Holds pages to the HTML standard, by a checker that others wrote. */
public final class Conformance {

  private static final ObjectMapper JSON = new ObjectMapper();

  /**
   * That checker is older than these: properties of CSS Color Adjustment and of SVG 2, and colour
   * stops with two places of CSS Images 4.
   */
  private static final List<String> NEWER =
      List.of(
          "CSS: “print-color-adjust”: Property “print-color-adjust” doesn't exist.",
          "CSS: “vector-effect”: Property “vector-effect” doesn't exist.",
          "CSS: “background”: “ ” is an incorrect operator.");

  private Conformance() {}

  /**
   * @param what the page, to be found again
   * @return errors, with the place and what stands there; its advice is left out
   */
  public static List<String> faults(String what, String html) throws Exception {
    EmbeddedValidator checker = new EmbeddedValidator();
    checker.setOutputFormat(EmbeddedValidator.OutputFormat.JSON);
    String answer = checker.validate(new ByteArrayInputStream(html.getBytes(UTF_8)));
    List<String> faults = new ArrayList<>();
    for (JsonNode message : JSON.readTree(answer).get("messages")) {
      String words = message.path("message").asText();
      boolean error = message.path("type").asText().equals("error");
      if (error && !NEWER.contains(words)) {
        faults.add(
            what
                + " line "
                + message.path("lastLine").asInt()
                + ": "
                + words
                + " At: "
                + message.path("extract").asText().strip());
      }
    }
    return faults;
  }
}
