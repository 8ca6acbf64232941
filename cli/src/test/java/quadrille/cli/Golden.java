package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Whole outputs kept in files. After a change that is meant, {@code -Dgolden.write=true} writes
 * them anew; the difference is then read before it is kept.
 */
final class Golden {

  private static final Path FOLDER = Path.of("src/test/resources/golden");

  private Golden() {}

  /** A file of demo-data. */
  static String demo(String name) {
    Path file = Path.of("../demo-data", name);
    assertTrue(Files.exists(file), () -> file + " is missing");
    return file.toString();
  }

  /** Compares a whole output with the file that keeps it. */
  static void check(String name, String output) {
    try {
      Path file = FOLDER.resolve(name);
      if (Boolean.getBoolean("golden.write")) {
        Files.createDirectories(FOLDER);
        Files.writeString(file, output);
      }
      assertTrue(Files.exists(file), () -> file + " is missing; see " + Golden.class);
      assertEquals(Files.readString(file, UTF_8), output, name);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  /** Checks that a text for people keeps to 80 columns, counted in code points. */
  static void checkWidth(String text) {
    text.lines().forEach(line -> assertTrue(line.codePointCount(0, line.length()) <= 80, line));
  }
}
