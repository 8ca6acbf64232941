package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The program in a process of its own: the jar where one is named, else this test's classes. */
final class Spawned {

  private Spawned() {}

  /** The words that start another program, of this test's classes; arguments follow. */
  static List<String> program(Class<?> main, String... options) {
    List<String> words = new ArrayList<>();
    words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    words.addAll(List.of("-Xshare:auto", "-Xlog:disable", "-XX:-UsePerfData"));
    words.addAll(List.of(options));
    words.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
    return words;
  }

  /** The words that start it; arguments follow. */
  static List<String> program(String... options) {
    String jar = System.getProperty("quadrille.jar");
    List<String> words = program(Main.class, options);
    if (jar != null) {
      words.subList(words.size() - 3, words.size()).clear();
      words.add("-XX:SharedArchiveFile=" + Path.of(jar).resolveSibling("quadrille.jsa"));
      words.addAll(List.of("-jar", jar));
    }
    return words;
  }

  /**
   * Runs a command to its end.
   *
   * @param in what is its standard input
   */
  static Run run(Path in, List<String> command) throws IOException, InterruptedException {
    Path out = Files.createTempFile("out", ".txt");
    Path err = Files.createTempFile("err", ".txt");
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectInput(in.toFile())
              .redirectOutput(out.toFile())
              .redirectError(err.toFile())
              .start();
      int status = process.waitFor();
      return new Run(status, Files.readString(out, UTF_8), Files.readString(err, UTF_8));
    } finally {
      Files.delete(out);
      Files.delete(err);
    }
  }

  /** Whether a tool is there and does what it is asked to. */
  static boolean can(String... command) {
    try {
      return run(Path.of("/dev/null"), List.of(command)).status() == 0;
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
