package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs the one jar that is handed out, as a user would. */
final class PackagedJarIT {

  @TempDir private Path folder;

  static List<String> charts() throws IOException {
    return CheckCommandTest.charts();
  }

  /** A process of its own, with nothing on its class path but the jar. */
  private Run java(String... args) throws IOException, InterruptedException {
    Process process = start(List.of(), args);
    int status = process.waitFor();
    return new Run(status, text("out"), text("err"));
  }

  /**
   * @param through a command that is given the whole command line to run
   */
  private Process start(List<String> through, String... args) throws IOException {
    String jar = Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar");
    List<String> command = new ArrayList<>(through);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    // One compiler and one collector, as the launcher asks for.
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", jar));
    command.addAll(List.of(args));
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectOutput(folder.resolve("out").toFile())
            .redirectError(folder.resolve("err").toFile());
    // What this variable adds, the program would print.
    builder.environment().remove("JAVA_TOOL_OPTIONS");
    Process process = builder.start();
    process.getOutputStream().close();
    return process;
  }

  private String text(String file) throws IOException {
    return Files.readString(folder.resolve(file), UTF_8);
  }

  @Test
  void jarStartsAloneAndSaysItsVersion() throws Exception {
    String out = java("--version").done();
    assertTrue(out.startsWith("quadrille "), out);
  }

  /** A library's zones would keep everybody waiting; see DEVELOPERS.md. */
  @Test
  void jarBringsNoTimeZonesOfItsOwn() throws Exception {
    String jar = Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar");
    try (ZipFile zip = new ZipFile(jar)) {
      assertNull(zip.getEntry("META-INF/services/java.time.zone.ZoneRulesProvider"));
    }
    String week = java("diary", "../demo-data/diary.json").done();
    assertTrue(week.startsWith("Week of Monday 2 March 2026, Europe/Rome\n"), week);
  }

  /**
   * A licence for each library inside: one that it brought, or a line of the list. The bill of
   * materials is read where the build was online to make it.
   */
  @Test
  void jarHoldsTheLicenceOfEachLibraryInIt() throws Exception {
    String jar = Objects.requireNonNull(System.getProperty("quadrille.jar"), "quadrille.jar");
    try (ZipFile zip = new ZipFile(jar)) {
      String list = entry(zip, "META-INF/licences/README.md");
      for (String text : List.of("apache-2.0.txt", "ical4j.txt", "ojalgo.txt")) {
        assertTrue(list.contains("| " + text + " |"), text);
        assertTrue(entry(zip, "META-INF/licences/" + text).length() > 1000, text);
      }
      assertTrue(zip.getEntry("META-INF/licences/jackson-core/LICENSE") != null);
      if (zip.getEntry("META-INF/bom.json") == null) {
        return;
      }
      JsonNode bom = new ObjectMapper().readTree(entry(zip, "META-INF/bom.json"));
      assertEquals("CycloneDX", bom.get("bomFormat").asText());
      List<String> without = new ArrayList<>();
      for (JsonNode component : bom.get("components")) {
        String name = component.get("name").asText();
        boolean brought =
            zip.stream().anyMatch(e -> e.getName().startsWith("META-INF/licences/" + name + "/"));
        if (!brought && !list.contains("| " + name + " |") && !name.equals("quadrille-solver")) {
          without.add(name);
        }
      }
      assertEquals(List.of(), without);
      assertTrue(bom.get("components").size() >= 20, "components");
    }
  }

  private static String entry(ZipFile zip, String name) throws IOException {
    try (InputStream in = zip.getInputStream(Objects.requireNonNull(zip.getEntry(name), name))) {
      return new String(in.readAllBytes(), UTF_8);
    }
  }

  @Test
  void statusReachesTheShell() throws Exception {
    assertEquals(Status.USAGE, java("plan").status());
    Run missing = java("check", "no-such-file.json");
    assertEquals(Status.FILE, missing.status());
    assertEquals("no-such-file.json: cannot be read: there is no such file.\n", missing.err());
    assertEquals("", missing.out());
    Run none =
        java("plan", Golden.demo("too-few-visits.json"), "--visits", "1", "--format", "json");
    assertEquals(Status.REFUSED, none.status());
    assertTrue(none.out().startsWith("{\n  \"schema\": \"quadrille/no-plan/1\""), none.out());
  }

  @Test
  void textIsUtf8WhateverTheMachinesLocale() throws Exception {
    Path chart = folder.resolve("chart.json");
    String typical = Files.readString(Path.of(Golden.demo("typical.json")));
    Files.writeString(chart, typical.replace("DEMO-typical", "Zähne-\ud83e\uddb7"));
    String out = java("check", chart.toString()).done();
    assertTrue(out.startsWith("Chart Zähne-\ud83e\uddb7, "), out);
  }

  /** The templates and the languages are in the jar, and pages are UTF-8 whatever the locale. */
  @Test
  void pagesAreInTheJar() throws Exception {
    String chart = Golden.demo("mild-one-visit.json");
    String[] plan = {"plan", "--effort=quick", "--format=html", "--language=de", chart};
    String page = java(plan).done();
    assertTrue(page.contains("Ihre Termine zur Zahnfleischbehandlung"), page);
    assertEquals(Run.of(plan).done(), page);
  }

  /** Ctrl-C while a search runs that would take far longer: the plan so far, audited. */
  @Test
  @EnabledOnOs(OS.LINUX)
  void interruptKeepsThePlanSoFar() throws Exception {
    String chart = Golden.demo("typical.json");
    Process plan = seeking("plan", "--effort=thorough", "--format=json", chart);
    interrupt(plan);
    assertEquals(Status.DONE, plan.waitFor(), text("err"));
    assertTrue(text("err").startsWith("Taking the best found so far."), text("err"));
    assertTrue(text("out").contains("the search was cut short"), text("out"));
    Run.withInput(text("out"), "audit", "-", "--chart", chart).done();
  }

  /** The second comes while six courses are still to be polished and audited. */
  @Test
  @EnabledOnOs(OS.LINUX)
  void secondInterruptEndsAtOnce() throws Exception {
    Process compare = seeking("compare", "--effort=thorough", Golden.demo("typical.json"));
    interrupt(compare);
    // Two signals sent before the process has seen the first are one signal.
    while (compare.isAlive() && text("err").isEmpty()) {
      Thread.sleep(1);
    }
    interrupt(compare);
    assertEquals(130, compare.waitFor(), text("err"));
    assertEquals("", text("out"));
  }

  /** A process whose search has begun, as the names of its threads tell. */
  private Process seeking(String... args) throws IOException, InterruptedException {
    // A shell that runs a job in the background lets it ignore Ctrl-C.
    Process process = start(List.of("env", "--default-signal=INT"), args);
    Path threads = Path.of("/proc", Long.toString(process.pid()), "task");
    while (process.isAlive() && !seeks(threads)) {
      Thread.sleep(10);
    }
    return process;
  }

  private static boolean seeks(Path threads) {
    try (Stream<Path> all = Files.list(threads)) {
      for (Path thread : all.toList()) {
        String name = Files.readString(thread.resolve("comm")).strip();
        if (name.equals("seek") || name.equals("compare")) {
          return true;
        }
      }
      return false;
    } catch (IOException | UncheckedIOException gone) {
      return false;
    }
  }

  private static void interrupt(Process process) throws IOException, InterruptedException {
    new ProcessBuilder("sh", "-c", "kill -INT " + process.pid()).start().waitFor();
  }

  /**
   * Another process, another start of the virtual machine: the same bytes, and they audit clean.
   */
  @Test
  @Tag("slow")
  void everyDemoChartGivesTheSamePlanAgainAndPassesItsAudit() throws Exception {
    Path charts = Files.createDirectory(folder.resolve("charts"));
    for (String name : CheckCommandTest.charts()) {
      if (name.endsWith(".json")) {
        Files.copy(Path.of(Golden.demo(name)), charts.resolve(name));
      }
    }
    String[] plans = {"plan", "--effort=quick", "--many", charts.toString()};
    Run run = java(plans);
    assertEquals(Run.of(plans), run);
    int planned = 0;
    for (String line : run.out().lines().toList()) {
      JsonNode result = new ObjectMapper().readTree(line);
      assertEquals("planned", result.get("status").asText(), line);
      String chart = result.get("source").asText();
      Run.withInput(result.get("plan").toString(), "audit", "-", "--chart", chart).done();
      planned++;
    }
    assertTrue(planned >= 10, "planned: " + planned);
  }

  /** The same at the effort that people plan with, chart by chart. */
  @ParameterizedTest
  @MethodSource("charts")
  @EnabledIfSystemProperty(named = "quadrille.thorough", matches = "true")
  void everyDemoChartGivesTheSamePlanAtNormalEffort(String name) throws Exception {
    String chart = Golden.demo(name);
    String plan = java("plan", "--format", "json", chart).done();
    assertEquals(Run.of("plan", "--format", "json", chart).done(), plan);
    Run.withInput(plan, "audit", "-", "--chart", chart).done();
  }
}
