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
import org.junit.jupiter.params.provider.ValueSource;

/** How hard and how long is sought, what ends it early, and what a terminal sees of it. */
final class SeekingTest {

  private static final String TYPICAL = Golden.demo("typical.json");
  private static final String MILD = Golden.demo("mild-one-visit.json");
  private static final String CUT_SHORT =
      "The search was cut short: a longer one may find a better course, and another run may find"
          + " another.\n";

  @TempDir private Path folder;

  @Test
  void interruptKeepsThePlanSoFarAndSaysSo() {
    Run run = Run.interrupted("plan", TYPICAL, "--format", "json");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(
        "Taking the best found so far. Ctrl-C again ends at once.\n" + CUT_SHORT, run.err());
    assertTrue(run.out().contains("\"assumptions\": [\n    \"the search was cut"), run.out());
    assertTrue(
        run.out().contains("\"assumptionFacts\": [\n    { \"assumption\": \"cut-short\" }"),
        run.out());
    Run.withInput(run.out(), "audit", "-", "--chart", TYPICAL).done();
  }

  @Test
  void interruptedPlanSaysSoToWhoeverReadsIt() {
    String text = Run.interrupted("plan", TYPICAL).out();
    assertTrue(text.contains("- the search was cut short: a longer one"), text);
    Golden.checkWidth(text);
    String page = Run.interrupted("plan", TYPICAL, "--format", "html").out();
    assertTrue(page.contains("the search was cut short: a longer one"), page);
  }

  @Test
  void deadlineThatPassesAtOnceKeepsThePlanSoFar() {
    Run run = Run.of("plan", TYPICAL, "--format=json", "--effort=thorough", "--deadline", "0.001");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(CUT_SHORT, run.err());
    Run.withInput(run.out(), "audit", "-", "--chart", TYPICAL).done();
  }

  @Test
  void deadlineThatDoesNotPassChangesNothing() {
    assertEquals(Run.kept("plan", MILD).done(), Run.of("plan", MILD, "--deadline=3600").done());
  }

  @Test
  void interruptWithNoPlanYetSaysSo() {
    Run run =
        Run.interrupted("plan", Golden.demo("too-few-visits.json"), "--visits=2", "--format=json");
    assertEquals(Status.REFUSED, run.status());
    assertTrue(run.out().contains("\"cutShort\": true"), run.out());
    assertTrue(
        run.err().contains("The search was cut short, and no plan that keeps every hard rule"),
        run.err());
    assertFalse(run.err().contains("No plan keeps every hard rule"), run.err());
  }

  @Test
  void interruptedComparisonSaysSo() {
    Run run = Run.interrupted("compare", TYPICAL, "--visits=3-4");
    assertEquals(Status.DONE, run.status(), run.err());
    assertTrue(run.out().contains("- The search was cut short: "), run.out());
    Golden.checkWidth(run.out());
  }

  @Test
  void terminalSeesOneLineThatIsWipedOut() {
    Run run = Run.watched("plan", MILD);
    assertEquals(Run.kept("plan", MILD).done(), run.out());
    assertTrue(run.err().startsWith("\rSeeking ..."), run.err());
    assertTrue(run.err().contains(" sought, best cost "), run.err());
    assertFalse(run.err().contains("\n"), run.err());
    assertFalse(run.err().contains("\u001b"), run.err());
    String[] shown = run.err().split("\r");
    assertTrue(shown[shown.length - 1].isBlank(), run.err());
    assertEquals("", Run.kept("plan", MILD).err());
  }

  @Test
  void compareShowsItsProgressToo() {
    Run run = Run.watched("compare", MILD, "--visits=1-2", "--effort=quick");
    assertTrue(run.err().contains("2 of at most 2 courses sought, best cost "), run.err());
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-1", "86401", "NaN"})
  void deadlineOutOfBoundsIsWrongUsage(String seconds) {
    Run run = Run.of("plan", MILD, "--deadline=" + seconds);
    assertEquals(Status.USAGE, run.status());
    assertTrue(
        run.err().startsWith("--deadline: must be more than 0 and at most 86400 seconds, not "),
        run.err());
  }

  @Test
  void deadlineIsForOneChart() {
    Run run = Run.of("plan", "--many", "-", "--deadline=2");
    assertEquals(Status.USAGE, run.status());
    assertEquals("--deadline: is for one chart; --many seeks each to its end.\n", run.err());
  }

  @Test
  void effortIsOneOfThree() {
    Run run = Run.of("plan", MILD, "--effort=hard");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("\"hard\" is neither quick nor normal nor thorough"), run.err());
  }

  @Test
  void normalIsTheEffortUnasked() {
    String normal = Run.of("plan", TYPICAL, "--visits=3", "--effort=normal").done();
    assertEquals(normal, Run.of("plan", TYPICAL, "--visits=3").done());
  }

  @Test
  void linkLeadsToATerminalOrNot() throws IOException {
    assertTrue(Streams.isTerminal(link("/dev/pts/0")));
    assertTrue(Streams.isTerminal(link("/dev/tty1")));
    assertFalse(Streams.isTerminal(link("/dev/null")));
    assertFalse(Streams.isTerminal(link("pipe:[123]")));
    assertFalse(Streams.isTerminal(folder.resolve("no-such-link")));
  }

  private Path link(String to) throws IOException {
    return Files.createSymbolicLink(folder.resolve(to.replaceAll("\\W", "-")), Path.of(to));
  }
}
