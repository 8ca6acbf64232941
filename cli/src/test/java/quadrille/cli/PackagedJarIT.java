package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Runs the one jar that is handed out, as a user would. */
final class PackagedJarIT {

  @Test
  void jarStartsAloneAndSaysItsVersion() throws Exception {
    String jar = Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar");
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    Process process =
        new ProcessBuilder(java, "-jar", jar, "--version").redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), UTF_8);
    assertEquals(0, process.waitFor(), output);
    assertTrue(output.startsWith("quadrille "), output);
  }
}
