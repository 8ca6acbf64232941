package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

final class MainTest {

  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... args) {
    return Main.run(new PrintWriter(out, true), new PrintWriter(err, true), args);
  }

  @Test
  void versionIsTheBuildsOwn() {
    assertEquals(0, run("--version"));
    assertTrue(
        out.toString().matches("quadrille \\d+\\.\\d+\\.\\d+(-SNAPSHOT)?\\R"), out::toString);
    assertEquals("", err.toString());
  }

  @Test
  void unknownOptionIsWrongUsage() {
    assertEquals(2, run("--no-such-option"));
    assertEquals("", out.toString());
    assertTrue(err.toString().contains("--no-such-option"), err::toString);
  }
}
