package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** The self-contained image starts where it is built; without {@code -Pimage} there is none. */
final class ImageIT {

  @Test
  void theImageStartsWithoutAnyOtherJava() throws Exception {
    Path jar =
        Path.of(Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar"));
    Path image = jar.resolveSibling("image").resolve("quadrille");
    List<Path> launchers =
        List.of(
            image.resolve("bin/quadrille"),
            image.resolve("quadrille.exe"),
            jar.resolveSibling("image/quadrille.app/Contents/MacOS/quadrille"));
    Path launcher = launchers.stream().filter(Files::exists).findFirst().orElse(null);
    if (launcher == null) {
      System.err.println("SKIPPED: no image was built; -Pimage builds one with the JDK's jpackage");
    }
    assumeTrue(launcher != null, "no image");
    ProcessBuilder words =
        new ProcessBuilder(
            launcher.toString(), "check", Path.of(Golden.demo("mild-one-visit.json")).toString());
    words.environment().remove("JAVA_HOME");
    words.environment().put("PATH", "");
    Process process = words.redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), UTF_8);
    assertEquals(0, process.waitFor(), said);
    assertTrue(said.contains("DEMO-mild-one-visit"), said);
  }
}
