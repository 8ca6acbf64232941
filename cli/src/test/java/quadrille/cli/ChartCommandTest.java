package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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

  @Test
  void anotherProgramsTableIsReadByAMappingThatWasConfirmed() throws IOException {
    String export = folder.resolve("export.csv").toString();
    Path mapping = folder.resolve("mapping.json");
    Files.writeString(
        Path.of(export),
        "Case;Tooth;Aspect;Depth distal;Depth middle;Depth mesial;Deposit\n"
            + "K-1;46;facial;3;4;3;heavy\nK-1;46;lingual;3;4;5;\n");
    assertEquals(
        Status.DONE, Run.of("chart", export, "--propose", "-o", mapping.toString()).status());
    Run unconfirmed = Run.of("chart", export, "--mapping", mapping.toString());
    assertEquals(Status.FILE, unconfirmed.status());
    assertTrue(unconfirmed.err().contains("once each line has been looked at"), unconfirmed.err());
    Files.writeString(
        mapping, Files.readString(mapping).replace("\"confirmed\": false", "\"confirmed\": true"));
    Run read = Run.of("chart", export, "--mapping", mapping.toString());
    assertEquals(Status.DONE, read.status(), read.err());
    assertTrue(read.out().contains("46 heavy | 3 4 3 | 3 4 5"), read.out());
    assertTrue(read.err().contains("Nothing says bleeding"), read.err());
    Files.writeString(
        mapping,
        Files.readString(mapping)
            .replace(
                "\"words\"",
                "\"codes\": [ { \"system\": \"urn:x\", \"code\": \"d\", \"means\": \"deposit\" } ], \"words\""));
    String teeth = folder.resolve("k.teeth").toString();
    Files.writeString(Path.of(teeth), read.out().replaceFirst("\n", "\ncharted 2026-03-02\n"));
    Run fhir = Run.of("chart", teeth, "--fhir", "--mapping", mapping.toString());
    assertEquals(Status.DONE, fhir.status(), fhir.err());
    assertTrue(fhir.out().contains("\"valueString\": \"heavy\""), fhir.out());
    assertTrue(fhir.err().contains("No code means depth facial distal"), fhir.err());
    Files.writeString(Path.of(export), "Tooth\n46\n");
    Run open = Run.of("chart", export, "--mapping", mapping.toString(), "--format=json");
    assertEquals(Status.FILE, open.status());
    assertEquals("", open.out());
    for (String[] wrong :
        List.of(
            new String[] {"chart", "--new", "--fhir"},
            new String[] {"chart", teeth, "--fhir"},
            new String[] {"chart", teeth, "--propose", "--mapping", mapping.toString()},
            new String[] {"chart", teeth, "--propose", "-o", folder + "/m.csv"})) {
      assertEquals(Status.USAGE, Run.of(wrong).status(), String.join(" ", wrong));
    }
  }
}
