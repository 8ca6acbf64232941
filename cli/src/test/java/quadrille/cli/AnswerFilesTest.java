package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.render.SamplePlan;

/** Answers that go to files, in the format that the file's ending names. */
final class AnswerFilesTest {

  private static final String TYPICAL = Golden.demo("typical.json");

  @TempDir private Path folder;

  private List<String> command(String name) throws IOException {
    String plan = Files.writeString(folder.resolve("plan.json"), SamplePlan.text()).toString();
    String diary =
        Files.copy(Path.of(Golden.demo("diary.json")), folder.resolve("diary.json")).toString();
    Files.copy(Path.of(Golden.demo("hanna.ics")), folder.resolve("hanna.ics"));
    return switch (name) {
      case "check", "chart" -> List.of(name, TYPICAL);
      case "audit" -> List.of(name, plan, "--chart", TYPICAL);
      case "kit" -> List.of(name, plan);
      case "diary" -> List.of(name, diary, "--week=2026-03-02");
      case "rebook" -> List.of(name, diary, "--from=2026-03-02", "--away=ines@2026-03-05");
      case "compare" ->
          List.of(name, Golden.demo("mild-one-visit.json"), "--visits=1", "--effort=quick");
      default -> List.of(name, plan, "--diary", diary, "--from=2026-03-02");
    };
  }

  private static Run run(List<String> command, String... more) {
    List<String> all = new ArrayList<>(command);
    all.addAll(List.of(more));
    return Run.of(all.toArray(String[]::new));
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "chart", "audit", "kit", "diary", "compare", "book", "rebook"})
  void anAnswerIsWrittenAsItsFileEnds(String name) throws IOException {
    List<String> command = command(name);
    for (String format : List.of("json", "text")) {
      Path file = folder.resolve("answer." + (format.equals("text") ? "txt" : format));
      Run shown = run(command, "--format", format);
      Run written = run(command, "-o", file.toString());
      assertEquals("", written.out());
      assertEquals(shown.out(), Files.readString(file));
      assertEquals(shown.status(), written.status());
      Run again = run(command, "-o", file.toString());
      assertEquals(Status.USAGE, again.status());
      assertEquals(file + ": exists already; --force overwrites it.\n", again.err());
      assertEquals(written.status(), run(command, "-o", file.toString(), "--force").status());
      String other = format.equals("text") ? "json" : "text";
      Run contradicted = run(command, "-o", file.toString(), "--force", "--format", other);
      assertEquals(Status.USAGE, contradicted.status());
      assertTrue(contradicted.err().contains("contradicts the ending of"), contradicted.err());
      assertEquals(shown.out(), Files.readString(file));
    }
  }

  @Test
  void pagesAreWrittenWhereTheFileEndsSo() throws IOException {
    Path page = folder.resolve("week.HTML");
    run(command("diary"), "-o", page.toString()).status();
    assertTrue(Files.readString(page).startsWith("<!DOCTYPE html>"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"x.html", "x.csv", "x.teeth", "x.ics", "x.ICS"})
  void whatACommandDoesNotWriteIsWrongUsage(String name) throws IOException {
    Run run = run(command("kit"), "-o", folder.resolve(name).toString());
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().startsWith("-o " + folder.resolve(name) + ": "), run.err());
    assertFalse(Files.exists(folder.resolve(name)));
    Run practice = Run.of("practice", "-o", folder.resolve(name).toString());
    assertEquals(Status.USAGE, practice.status());
    assertTrue(practice.err().contains("the file is JSON"), practice.err());
  }

  @Test
  void whatIsReadIsNotWrittenOver() throws IOException {
    List<String> command = command("diary");
    String before = Files.readString(folder.resolve("diary.json"));
    Run run = run(command, "-o", command.get(1), "--force");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("is read by this command"), run.err());
    assertEquals(before, Files.readString(folder.resolve("diary.json")));
  }
}
