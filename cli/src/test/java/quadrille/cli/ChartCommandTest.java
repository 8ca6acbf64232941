package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

final class ChartCommandTest {

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"typical", "implants-both-sides", "unprobed", "universal-numbering"})
  void wholeReadback(String name) {
    Golden.check("chart-" + name + ".teeth", Run.of("chart", Golden.demo(name + ".json")).done());
  }

  @ParameterizedTest
  @MethodSource("quadrille.cli.CheckCommandTest#charts")
  void everyFormSaysTheSame(String name) {
    String chart = Golden.demo(name);
    String json = Run.of("chart", chart, "--format=json").done();
    for (String form : new String[] {"lines", "text", "csv"}) {
      String written = Run.of("chart", chart, "--format=" + form).done();
      assertEquals(json, Run.withInput(written, "chart", "-", "--format=json").done());
      assertEquals(Run.of("check", chart).done(), Run.withInput(written, "check", "-").done());
    }
  }

  @Test
  void theDemoMouthIsShort() {
    String unpadded = Run.of("chart", Golden.demo("typical.json")).done().replaceAll(" +", " ");
    assertTrue(unpadded.length() <= 1500, () -> unpadded.length() + " characters");
  }

  @ParameterizedTest
  @CsvSource({"a.teeth, case ", "a.json, {", "a.csv, # case", "a.txt, case "})
  void theEndingChoosesTheForm(String name, String start) throws IOException {
    String file = folder.resolve(name).toString();
    assertEquals("", Run.of("chart", Golden.demo("typical.json"), "-o", file).done());
    assertTrue(Files.readString(Path.of(file)).startsWith(start.strip()));
    assertEquals(Status.USAGE, Run.of("chart", Golden.demo("typical.json"), "-o", file).status());
    assertEquals("", Run.of("chart", Golden.demo("typical.json"), "-o", file, "--force").done());
  }

  @Test
  void anEndingMayNotContradict() {
    String file = folder.resolve("a.csv").toString();
    Run run = Run.of("chart", Golden.demo("typical.json"), "--format=json", "-o", file);
    assertEquals(Status.USAGE, run.status());
    assertEquals("--format json: contradicts the ending of " + file + ".\n", run.err());
    assertFalse(Files.exists(Path.of(file)));
  }

  @Test
  void anEmptyChartHasEachToothOnce() {
    for (int count : new int[] {28, 32}) {
      String lines = Run.of("chart", "--new", "--teeth=" + count).done();
      assertEquals(count, lines.lines().filter(line -> line.contains("? ? ? | ? ? ?")).count());
      assertEquals(Status.FILE, Run.withInput(lines, "check", "-").status());
    }
    assertTrue(Run.of("chart", "--new", "--numbering=universal").done().contains("\n2 ?  | ?"));
    Golden.check("chart-new.teeth", Run.of("chart", "--new").done());
    Golden.check("chart-new.csv", Run.of("chart", "--new", "--format=csv").done());
    Golden.check("chart-new.json", Run.of("chart", "--new", "--format=json").done());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "chart",
        "chart --new --teeth=30",
        "chart --new --numbering=roman",
        "chart typical.json --teeth=28",
        "chart typical.json --new",
        "check typical.json --format=csv"
      })
  void wrongUsage(String command) {
    assertEquals(Status.USAGE, Run.of(command.split(" ")).status());
  }
}
