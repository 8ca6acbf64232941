package quadrille.document;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import net.jqwik.api.statistics.Statistics;

/** A schema of docs, read by an independent implementation of JSON Schema 2020-12. */
public final class PublishedSchema {
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);

  private final String text;
  private final Schema schema;

  /**
   * @param name such as {@code chart}
   */
  public PublishedSchema(String name) {
    try {
      text = Files.readString(Path.of("..", "docs", name + ".schema.json"));
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
    schema = REGISTRY.getSchema(text);
  }

  /** What is wrong with the schema itself. */
  public List<Error> ownErrors() {
    return REGISTRY
        .getSchema("{\"$ref\": \"https://json-schema.org/draft/2020-12/schema\"}")
        .validate(text, InputFormat.JSON);
  }

  public List<Error> errors(String json) {
    return schema.validate(
        json,
        InputFormat.JSON,
        context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)));
  }

  public boolean allows(String json) {
    return errors(json).isEmpty();
  }

  /** That it says of broken documents what their table says that it does, where that tells. */
  public void assertJudges(List<BrokenTexts.Case> documents, int atLeast) {
    int held = 0;
    for (BrokenTexts.Case broken : documents) {
      switch (broken.schema()) {
        case "refuses" -> assertFalse(allows(broken.text()), broken::title);
        case "cannot say" -> assertTrue(allows(broken.text()), broken::title);
        default -> held--;
      }
      held++;
    }
    assertTrue(held >= atLeast, held + " cases");
  }

  /** That a property tries both what is allowed and what is not: one alone would show nothing. */
  public static void assertBothAreTried(boolean allowed) {
    Statistics.label("allowed")
        .collect(allowed)
        .coverage(
            both -> {
              both.check(true).percentage(share -> share > 5);
              both.check(false).percentage(share -> share > 5);
            });
  }
}
