package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Runs the launcher beside the jar, with its archive of classes and without. */
@DisabledOnOs(OS.WINDOWS)
final class LauncherIT {

  private static final String MILD =
      Path.of(Golden.demo("mild-one-visit.json")).toAbsolutePath().normalize().toString();

  private static final String[] PLAN = {"plan", "--effort=quick", MILD};

  private static final String[] CHECK = {"check", MILD};

  @TempDir private Path folder;

  private Path jar;
  private Path launcher;

  @BeforeEach
  void findThem() {
    jar = Path.of(Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar"));
    launcher = jar.resolveSibling("quadrille");
  }

  @Test
  void givesTheSameAsTheJar() throws Exception {
    assertEquals(Run.kept(PLAN).done(), run(folder, launcher, PLAN).done());
  }

  @Test
  void isFoundThroughLinksFromAnywhere() throws Exception {
    Path bin = Files.createDirectories(folder.resolve("bin dir"));
    Path absolute = Files.createSymbolicLink(bin.resolve("absolute"), launcher.toAbsolutePath());
    Files.createSymbolicLink(folder.resolve("relative"), Path.of("bin dir", "absolute"));
    assertTrue(run(Path.of("/"), absolute, "--version").done().startsWith("quadrille "));
    assertTrue(run(folder, Path.of("./relative"), "--version").done().startsWith("quadrille "));
  }

  @Test
  void statusAndArgumentsPassThrough() throws Exception {
    Run run = run(folder, launcher, "check", "no such file.json");
    assertEquals(Status.FILE, run.status());
    assertEquals("no such file.json: cannot be read: there is no such file.\n", run.err());
    assertEquals("", run.out());
  }

  @Test
  void archiveThatTheBuildMadeIsTaken() throws Exception {
    Path archive = jar.resolveSibling("quadrille.jsa");
    assertTrue(Files.size(archive) > 1_000_000, archive.toString());
    String loaded = loaded(archive);
    assertTrue(
        loaded
            .lines()
            .anyMatch(
                line ->
                    line.contains(" quadrille.cli.Main ") && line.contains("shared objects file")),
        loaded);
  }

  @Test
  void missingArchiveIsHarmless() throws Exception {
    assertEquals(Run.kept(CHECK).done(), run(folder, copied(), CHECK).done());
  }

  /** One that was made for another jar: here, for one in another place. */
  @Test
  void staleArchiveIsHarmlessAndSilent() throws Exception {
    Path moved = copied();
    Files.copy(jar.resolveSibling("quadrille.jsa"), moved.resolveSibling("quadrille.jsa"));
    assertEquals(Run.kept(CHECK).done(), run(folder, moved, CHECK).done());
  }

  @Test
  void brokenArchiveIsHarmlessAndSilent() throws Exception {
    Path moved = copied();
    Path broken = moved.resolveSibling("quadrille.jsa");
    Files.writeString(broken, "no archive at all");
    assertEquals(Run.kept(CHECK).done(), run(folder, moved, CHECK).done());
    Files.writeString(broken, "");
    assertEquals(Run.kept(CHECK).done(), run(folder, moved, CHECK).done());
  }

  /** Launcher and jar in a folder of their own, without an archive. */
  private Path copied() throws IOException {
    Path home = Files.createDirectories(folder.resolve("another place"));
    Files.copy(jar, home.resolve("quadrille.jar"));
    Path copy = Files.copy(launcher, home.resolve("quadrille"));
    assertTrue(copy.toFile().setExecutable(true));
    assertNotEquals(launcher, copy);
    return copy;
  }

  private String loaded(Path archive) throws IOException, InterruptedException {
    return run(
            folder,
            java(),
            "-XX:SharedArchiveFile=" + archive.toRealPath(),
            "-Xlog:class+load",
            "-jar",
            jar.toRealPath().toString(),
            "--version")
        .done();
  }

  private static Path java() {
    return Path.of(System.getProperty("java.home"), "bin", "java");
  }

  private Run run(Path from, Path program, String... args)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(program.toString());
    command.addAll(List.of(args));
    Path out = folder.resolve("out");
    Path err = folder.resolve("err");
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .directory(from.toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile());
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
    Process process = builder.start();
    process.getOutputStream().close();
    int status = process.waitFor();
    return new Run(status, Files.readString(out, UTF_8), Files.readString(err, UTF_8));
  }
}
