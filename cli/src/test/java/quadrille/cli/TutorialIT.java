package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * Goes through the tutorial as its reader does: each of its commands in order, in a folder with the
 * demo data, by the packaged program and a shell. What the tutorial shows of the answer must be
 * there, line by line and in order; only where it has a line with an ellipsis may lines be left
 * out. A command that is meant to fail is followed by {@code echo "status $?"} in the same block.
 */
@DisabledOnOs(OS.WINDOWS)
final class TutorialIT {

  private static final Path TUTORIAL = Path.of("..", "docs", "tutorial.md");
  private static final Pattern BLOCK =
      Pattern.compile("```(sh|text)\\n(.*?)```\\n", Pattern.DOTALL);
  private static final String ELISION = "…";

  @TempDir private Path folder;

  @Test
  void everyCommandAnswersAsTheTutorialSays() throws Exception {
    Path data = Files.createDirectory(folder.resolve("demo-data"));
    try (Stream<Path> files = Files.list(Path.of("..", "demo-data"))) {
      for (Path file : files.toList()) {
        Files.copy(file, data.resolve(file.getFileName()));
      }
    }
    Matcher block = BLOCK.matcher(Files.readString(TUTORIAL));
    int commands = 0;
    int answers = 0;
    String command = "";
    String answer = "";
    while (block.find()) {
      if (block.group(1).equals("sh")) {
        command = block.group(2);
        answer = answer(command);
        commands++;
      } else {
        assertShown(command, block.group(2), answer);
        answers++;
      }
    }
    assertTrue(commands >= 15, "commands: " + commands);
    assertTrue(answers >= 10, "answers: " + answers);
  }

  /** Each line that is shown, in order; one after another but where lines are left out. */
  private static void assertShown(String command, String shown, String answer) {
    Iterator<String> lines = answer.lines().iterator();
    boolean leftOut = false;
    for (String line : shown.lines().toList()) {
      if (line.strip().equals(ELISION)) {
        leftOut = true;
        continue;
      }
      String next = null;
      while (lines.hasNext() && (next == null || leftOut && !next.equals(line))) {
        next = lines.next();
      }
      assertEquals(line, next, () -> "after:\n" + command + "\nthe answer was:\n" + answer);
      leftOut = false;
    }
    assertTrue(
        leftOut || !lines.hasNext(),
        () -> "more than is shown after:\n" + command + "\nthe answer was:\n" + answer);
  }

  /** All that a terminal would show, for one block of commands of which each must end well. */
  private String answer(String command) throws IOException, InterruptedException {
    Path jar =
        Path.of(Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar"));
    Path shown = folder.resolve("shown");
    List<String> words = new ArrayList<>(List.of("sh", "-c", command));
    if (!command.contains("status $?")) {
      words.add(1, "-e");
    }
    ProcessBuilder builder =
        new ProcessBuilder(words)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(shown.toFile());
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
    builder
        .environment()
        .merge(
            "PATH",
            jar.toAbsolutePath().normalize().getParent().toString(),
            (path, bin) -> bin + ":" + path);
    Process process = builder.start();
    process.getOutputStream().close();
    int status = process.waitFor();
    String answer = Files.readString(shown, UTF_8);
    assertEquals(0, status, () -> "after:\n" + command + "\nthe answer was:\n" + answer);
    return answer;
  }
}
