package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class PageCommandTest {

  private static final String MILD = Golden.demo("mild-one-visit.json");
  private static final String TYPICAL = Golden.demo("typical.json");

  private static String planned = "";

  @TempDir private Path folder;
  private String plan;

  @BeforeAll
  static void seek() {
    planned = Run.of("plan", TYPICAL, "--effort=quick", "--format=json").done();
  }

  @BeforeEach
  void save() throws IOException {
    plan = Files.writeString(folder.resolve("plan.json"), planned).toString();
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static void assertRefused(int status, String why, String... command) {
    Run run = Run.of(command);
    assertEquals(status, run.status(), run.err());
    assertEquals("", run.out());
    assertTrue(run.err().contains(why), run.err());
  }

  @Test
  void aSavedPlanHasThePagesThatItHadWhenItWasPlanned() {
    String mild = path("mild.json");
    Run.of("plan", MILD, "--effort=quick", "-o", mild);
    String then = Run.of("plan", MILD, "--effort=quick", "--format=html").done();
    assertEquals(then, Run.of("page", mild, "--chart", MILD).done());
  }

  @Test
  void aSavedComparisonHasThePageThatItHadWhenItWasCompared() {
    comparisonIsDrawnAgain("--longest=50", "--certainty=0.9");
  }

  @Test
  void aSavedComparisonKnowsWhatWasWished() {
    String page =
        comparisonIsDrawnAgain(
            "--wish=must UR posterior in visit 1 of 2",
            "--wish=rather LL and UR together",
            "--wish=must by hand");
    assertTrue(page.contains("Must UR posterior in visit 1 of 2: kept at 2 visits"), page);
    assertTrue(page.contains("Must by hand: kept at 1, 2 and 3 visits"), page);
  }

  private String comparisonIsDrawnAgain(String... under) {
    String[] asked = with(new String[] {"compare", MILD, "--visits=1-3", "--effort=quick"}, under);
    String then = Run.of(with(asked, "--format=html")).done();
    String saved = path("comparison.json");
    assertEquals(Status.DONE, Run.of(with(asked, "-o", saved)).status());
    assertEquals(then, Run.of("page", saved, "--chart", MILD).done());
    return then;
  }

  private static String[] with(String[] command, String... more) {
    String[] all = Arrays.copyOf(command, command.length + more.length);
    System.arraycopy(more, 0, all, command.length, more.length);
    return all;
  }

  @Test
  void aCourseIsDrawnFromItsLog() {
    String course = path("course.ndjson");
    Run.of("record", course, "--start", plan, "--chart", TYPICAL);
    String pages = Run.of("page", plan, "--chart", TYPICAL).done();
    assertEquals(pages, Run.of("page", course).done());
    assertTrue(pages.contains("Course at a glance"), pages);
    assertEquals(
        Run.of("record", course, "--show", "--format=html", "--page=progress").done(),
        Run.of("page", course, "--page=progress").done());
    Run.of(
        "record",
        course,
        "--visit=1",
        "--date=2026-03-09",
        "--clinician=C",
        "--minutes=62",
        "--not-done",
        "UR posterior fine");
    assertEquals(
        Status.DONE,
        Run.of("plan", "--course", course, "--effort=quick", "--adopt", "-o", path("on.json"))
            .status());
    String on = Run.of("page", course).done();
    assertEquals(on, Run.of("page", path("on.json"), "--course", course).done());
    assertFalse(on.equals(pages));
  }

  @Test
  void aDiaryHasThePageOfItsWeek() {
    String diary = Golden.demo("diary.json");
    assertEquals(
        Run.of("diary", diary, "--week=2026-03-09", "--format=html").done(),
        Run.of("page", diary, "--week=2026-03-09").done());
  }

  @Test
  void whatDoesNotPassItsAuditIsNotDrawn() throws IOException {
    Path changed = folder.resolve("changed.json");
    Files.writeString(changed, planned.replaceFirst("\"ml\": 1.35", "\"ml\": 1.4"));
    assertRefused(
        Status.REFUSED,
        "changed.json: does not pass its audit, so no page is drawn.",
        "page",
        changed.toString(),
        "--chart",
        TYPICAL,
        "-o",
        path("x.html"));
    assertFalse(Files.exists(folder.resolve("x.html")));
    Path saved = folder.resolve("comparison.json");
    Run.of("compare", MILD, "--visits=1", "--effort=quick", "-o", saved.toString());
    Files.writeString(
        saved, Files.readString(saved).replaceFirst("\"tipChanges\": \\d+", "\"tipChanges\": 0"));
    assertEquals(Status.DONE, Run.of("page", saved.toString(), "--chart", MILD).status());
    Files.writeString(
        saved,
        Files.readString(saved)
            .replaceFirst("\"bookedMinutes\": \\d+,\\s+\"over", "\"bookedMinutes\": 10, \"over"));
    assertRefused(
        Status.REFUSED, "does not pass its audit", "page", saved.toString(), "--chart", MILD);
  }

  @Test
  void whatIsNotForItIsWrongUsage() throws IOException {
    String diary = Golden.demo("diary.json");
    String none = Files.writeString(folder.resolve("none.json"), "{}").toString();
    assertRefused(Status.USAGE, "a plan needs --chart", "page", plan);
    assertRefused(
        Status.USAGE,
        "--week: is not for a plan",
        "page",
        plan,
        "--chart",
        TYPICAL,
        "--week=2026-03-02");
    assertRefused(
        Status.USAGE,
        "progress: is not for a plan",
        "page",
        plan,
        "--chart",
        TYPICAL,
        "--page=progress");
    assertRefused(
        Status.USAGE,
        "--page: \"desc\" is neither",
        "page",
        plan,
        "--chart",
        TYPICAL,
        "--page=desc");
    assertRefused(Status.USAGE, "--page and --language: is not", "page", diary, "--page=desk");
    assertRefused(Status.USAGE, "is its only format", "page", diary, "--format=json");
    assertRefused(Status.USAGE, "is its only format", "page", diary, "-o", path("x.json"));
    assertRefused(Status.FILE, "its schema says which", "page", none);
    assertRefused(Status.FILE, "there is no such file", "page", path("nothing.json"));
  }
}
