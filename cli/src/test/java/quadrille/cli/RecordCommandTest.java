package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

final class RecordCommandTest {
  private static final String CHART = Golden.demo("typical.json");
  private static final String AT = "--at=2026-03-02T12:00:00+01:00";

  @TempDir private static Path shared;
  private static String begun = "";

  @TempDir private Path folder;
  private String course = "";

  @BeforeAll
  static void beginOnce() throws IOException {
    String plan = shared.resolve("plan.json").toString();
    begun = shared.resolve("begun.ndjson").toString();
    assertEquals(
        Status.DONE,
        Run.of("plan", CHART, "--visits", "3", "--effort", "quick", "-o", plan).status());
    Run run = Run.of("record", begun, "--start", plan, "--chart", CHART, AT);
    assertEquals(begun + ": wrote entry 1, planned.\n", run.err());
    assertEquals(Status.DONE, run.status());
  }

  @BeforeEach
  void copy() throws IOException {
    course = folder.resolve("course.ndjson").toString();
    Files.copy(Path.of(begun), Path.of(course));
  }

  private Run record(String... options) {
    List<String> args = new ArrayList<>(List.of("record", course, AT));
    args.addAll(List.of(options));
    return Run.of(args.toArray(new String[0]));
  }

  private Run visitOne(String... options) {
    List<String> args =
        new ArrayList<>(
            List.of("--visit=1", "--date=2026-03-02", "--clinician=C2", "--minutes=64"));
    args.addAll(List.of(options));
    return record(args.toArray(new String[0]));
  }

  private CourseLog log() throws Exception {
    return CourseFile.read(Path.of(course));
  }

  private VisitDone recorded() throws Exception {
    return log().recorded().get(0).done();
  }

  /** The work of the first visit to come, such as {@code UR posterior fine}. */
  private String someWork() throws Exception {
    var step = CourseState.of(log()).toCome().get(0).steps().get(0);
    return step.area() + " " + step.pass().word();
  }

  @Test
  void whatIsNotSaidIsAsPlanned() throws Exception {
    assertEquals(course + ": wrote entry 2, visit-done.\n", visitOne().err());
    VisitDone done = recorded();
    var planned = log().recorded().get(0).planned();
    assertEquals(planned.steps().size(), done.steps().size());
    assertTrue(done.steps().stream().allMatch(StepDone::whole));
    assertEquals(planned.injections().size(), done.injections().size());
    assertEquals(planned.bookedMinutes(), done.bookedMinutes());
    assertEquals(64, done.minutes());
  }

  @Test
  void aNoteAndWhatWasWrongAreReadFromStandardInput() throws Exception {
    String[] visit = {
      "record", course, AT, "--visit=1", "--date=2026-03-02", "--clinician=C2", "--minutes=64"
    };
    List<String> noted = new ArrayList<>(List.of(visit));
    noted.add("--note=-");
    Run run = Run.withInput("left early\n", noted.toArray(new String[0]));
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals("left early", recorded().note());
    List<String> corrected = new ArrayList<>(List.of(visit));
    corrected.addAll(List.of("--correct=2", "--why=-"));
    Run again = Run.withInput("another day\n", corrected.toArray(new String[0]));
    assertEquals(Status.DONE, again.status(), again.err());
    assertTrue(record("--show").out().contains("another day"));
  }

  @Test
  void sharesInjectionsAndFindingsAreTaken() throws Exception {
    String work = someWork();
    Run run =
        visitOne(
            "--part=" + work + "=0.5",
            "--given=inferior alveolar LR lidocaine-2-100 1.5",
            "--failed=inferior alveolar LR=12",
            "--depth=16 facial distal=8 bleeding",
            "--time=" + work + "=7.5",
            "--interrupted",
            "--note=left early");
    assertEquals(Status.DONE, run.status(), run.err());
    VisitDone done = recorded();
    assertTrue(
        done.steps().stream()
            .filter(step -> work.equals(step.area() + " " + step.pass().word()))
            .allMatch(step -> step.share() == 0.5));
    assertEquals(
        new InjectionRef("inferior alveolar", Quadrant.LR, null), done.injections().get(0).ref());
    assertEquals(
        List.of(new Observation.FailedInjection("inferior alveolar", Quadrant.LR, null, 12.0)),
        done.findings().subList(0, 1));
    assertEquals(2, done.findings().size());
    assertEquals(7.5, done.parts().get(0).minutes());
    assertTrue(done.interrupted());
    String shown = record("--show").out();
    assertTrue(shown.contains("16 facial distal 8 mm, bleeding"), shown);
    assertTrue(shown.contains("\"left early\""), shown);
    assertTrue(shown.contains("did not take, which kept the visit 12 min"), shown);
    Golden.checkWidth(shown);
  }

  @Test
  void everyFaultIsToldWithItsOption() throws Exception {
    byte[] before = Files.readAllBytes(Path.of(course));
    Run run =
        record(
            "--visit=7",
            "--date=2.3.2026",
            "--clinician=C2",
            "--minutes=many",
            "--not-done=UR posteriro fine",
            "--part=UR posterior fine",
            "--given=nonesuch LR lidocaine-2-100 1.5",
            "--depth=16 facial distal=25",
            "--sleeve-broken=16");
    assertEquals(Status.USAGE, run.status());
    for (String option :
        List.of(
            "--visit: found 7; allowed: a visit to come: 1, 2 or 3",
            "--date: found \"2.3.2026\"; allowed: ",
            "--minutes: found \"many\"; allowed: a number from 1 to 600",
            "--not-done: found \"UR posteriro\"; allowed: ",
            "--part: found \"UR posterior fine\"; allowed: an area, a pass, = and a number",
            "--given: found \"nonesuch\"; allowed: ",
            "--depth: found 25; allowed: a whole number from 0 to 20",
            "--sleeve-broken: found tooth 16; allowed: an implant of the chart")) {
      assertTrue(run.err().contains(option), option + "\n" + run.err());
    }
    assertEquals(8, run.err().lines().count(), run.err());
    assertTrue(Arrays.equals(before, Files.readAllBytes(Path.of(course))));
  }

  @Test
  void aFileIsHeldToTheSameRules() throws Exception {
    String file = folder.resolve("visit.json").toString();
    Files.writeString(
        Path.of(file),
        """
        {"schema": "quadrille/visit/1", "visit": 1, "date": "2026-03-02", "clinician": "C2",
         "found": [{"what": "depth", "tooth": "16", "aspect": "facial", "site": "front",
                    "depthMm": 5}]}
        """);
    Run wrong = record("--from", file);
    assertEquals(Status.FILE, wrong.status());
    assertTrue(wrong.err().contains(":1: found no \"minutes\"; allowed: "), wrong.err());
    assertTrue(
        wrong.err().contains(":2 /found/0/site: found \"front\"; allowed: distal, middle or"),
        wrong.err());
    Files.writeString(
        Path.of(file),
        Files.readString(Path.of(file))
            .replace("\"front\"", "\"distal\"")
            .replace("\"C2\",", "\"C2\", \"minutes\": 50,"));
    assertEquals(Status.DONE, record("--from", file).status());
    assertEquals(50, recorded().minutes());
  }

  @Test
  void aVisitIsRecordedOnceAndCorrectedAfterwards() throws Exception {
    visitOne();
    Run twice = visitOne();
    assertEquals(Status.USAGE, twice.status());
    assertEquals(
        "--visit: found visit 1, which entry 2 records; allowed: a correction of entry 2\n",
        twice.err());
    Run right = visitOne("--minutes=71", "--correct=2", "--why=mistyped");
    assertEquals(Status.USAGE, right.status(), "an option twice");
    right =
        record(
            "--visit=1",
            "--date=2026-03-02",
            "--clinician=C3",
            "--minutes=71",
            "--correct=2",
            "--why=mistyped");
    assertEquals(course + ": wrote entry 3, corrected.\n", right.err());
    assertEquals("C3", recorded().clinician());
    String shown = record("--show").out().replaceAll("\\s+", " ");
    assertTrue(shown.contains("CORRECTED by entry 3"), shown);
    assertTrue(shown.contains("in place of entry 2"), shown);
    assertTrue(shown.contains("(mistyped)"), shown);
  }

  /** Enter takes what stands in brackets; what is wrong is asked again; there is a way back. */
  @Test
  void asksForWhatWasNotAsPlannedByNumber() throws Exception {
    var visit = CourseState.of(log()).toCome().get(0);
    List<String> works =
        visit.steps().stream().map(s -> s.area() + " " + s.pass().word()).distinct().toList();
    int needle = works.size() + 1;
    String answers =
        "\nyesterday\n\nC9\n<\nC2\n\n64\n99\n1 2\n1 half, "
            + needle
            + " failed 12,"
            + needle
            + " .7\n"
            + "99 facial distal=5\n"
            + "16 facial distal=5 dry\n"
            + "pus 16 lingual\n"
            + "i\n"
            + "?\n"
            + "note all well\n\n"
            + "<\n"
            + "16 facial distal=6\n"
            + "note well\n\n\n";
    Run run = Run.withInput(answers, "record", course, AT, "--ask");
    assertEquals(Status.DONE, run.status(), run.err());
    VisitDone done = recorded();
    assertEquals(1, done.visit());
    assertEquals("2026-03-02", done.date().toString());
    assertEquals("C2", done.clinician());
    assertEquals(64, done.minutes());
    assertEquals("well", done.note());
    assertFalse(done.interrupted());
    assertEquals(2, done.findings().size());
    assertEquals(visit.injections().size(), done.injections().size());
    assertEquals(0.7, done.injections().get(0).ml());
    for (StepDone step : done.steps()) {
      boolean first = works.get(0).equals(step.area() + " " + step.pass().word());
      assertEquals(first ? 0.5 : 1, step.share());
    }
    for (String told :
        List.of(
            "Visit [1]: ",
            "Day [2026-03-02]: ",
            "Found \"yesterday\"; allowed: ",
            "An answer is needed; Ctrl-C leaves, and nothing is written.",
            "Found 99; allowed: a number of the list, 1 to ",
            "Found 2; allowed: a number from 0 to 1",
            "Found \"99\"; allowed: an ISO 3950 code",
            "Found, or to note (Enter: nothing more; ? shows how): ",
            "  pus 16 facial",
            log().practice().agents().get(visit.injections().get(0).agent()).words(),
            "The record would say:",
            "Write it? yes, no, or < to go back [yes]: ")) {
      assertTrue(run.err().contains(told), told + "\n" + run.err());
    }
  }

  @Test
  void nothingIsWrittenBeforeItIsConfirmed() throws Exception {
    for (String answer : List.of("no\n", "")) {
      Run run = Run.withInput("\n\nC2\n64\n\n\n" + answer, "record", course, AT, "--ask");
      assertEquals(Status.USAGE, run.status());
      assertEquals(1, log().entries().size());
    }
    int needle =
        (int)
                CourseState.of(log()).toCome().get(0).steps().stream()
                    .map(s -> s.area() + " " + s.pass().word())
                    .distinct()
                    .count()
            + 1;
    // A dose beyond the maximum is doubted first, and no mere Enter writes it.
    Run run =
        Run.withInput("\n\nC2\n64\n" + needle + " 40\n\n\nyes\n", "record", course, AT, "--ask");
    assertEquals(Status.DONE, run.status(), run.err());
    int doubted = run.err().indexOf("Please look again: visit 1, what it gave by the record");
    assertTrue(doubted >= 0 && doubted < run.err().indexOf("wrote entry 2"), run.err());
    assertTrue(run.err().contains("to go back: Write it? "), run.err());
  }

  @Test
  void aCorrectionChangesWhatItNames() throws Exception {
    String work = someWork();
    visitOne("--part=" + work + "=0.5", "--depth=16 facial distal=8", "--note=early");
    VisitDone before = recorded();
    assertEquals(Status.DONE, record("--minutes=71", "--correct=2").status());
    VisitDone after = recorded();
    assertEquals(71, after.minutes());
    assertEquals(before.steps(), after.steps());
    assertEquals(before.findings(), after.findings());
    assertEquals(before.injections(), after.injections());
    assertEquals("early", after.note());
    assertEquals(before.date(), after.date());
    assertEquals(Status.DONE, record("--part=" + work + "=100 %", "--correct=3").status());
    assertTrue(recorded().steps().stream().allMatch(StepDone::whole));
    assertEquals(71, recorded().minutes());
    // In questions, too: nothing but the clinician.
    Run asked = Run.withInput("\nC7\n\n\n\n\n", "record", course, AT, "--ask", "--correct=2");
    assertEquals(Status.DONE, asked.status(), asked.err());
    assertEquals("C7", recorded().clinician());
    assertEquals(71, recorded().minutes());
  }

  /** What else was given stays as recorded, not as planned. */
  @Test
  void aCorrectedInjectionLeavesTheOthersAsRecorded() throws Exception {
    int needle = 1 + works(CourseState.of(log()).toCome().get(0)).size();
    String answers = "\n\nC2\n64\n" + needle + " .7\n\nyes\n";
    Run run = Run.withInput(answers, "record", course, AT, "--ask");
    assertEquals(Status.DONE, run.status(), run.err());
    List<Given> before = recorded().injections();
    assertEquals(0.7, before.get(0).ml());
    answers = "\n\n\n" + (needle + 1) + " .6\n\nyes\n";
    run = Run.withInput(answers, "record", course, AT, "--ask", "--correct=2");
    assertEquals(Status.DONE, run.status(), run.err());
    List<Given> after = recorded().injections();
    assertEquals(before.get(0), after.get(0));
    assertEquals(0.6, after.get(1).ml());
    assertEquals(before.size(), after.size());
  }

  /** The visits of the tutorial's story, booked: a key is a character or Enter. */
  @Test
  void aVisitTakesAtMost25Keys() throws Exception {
    Visit first = CourseState.of(log()).toCome().get(0);
    List<String> keys = new ArrayList<>();
    keys.add(
        asked(
            1,
            "58",
            item(first, "UR posterior fine") + " half," + item(first, "UR anterior fine"),
            "i"));
    again();
    Visit second = CourseState.of(log()).toCome().get(0);
    String left = second.injections().get(0).quadrant().name();
    int needle = 1 + works(second).size();
    keys.add(asked(2, "71", needle + " failed," + item(second, left + " posterior fine"), ""));
    again();
    while (!CourseState.of(log()).toCome().isEmpty()) {
      int number = CourseState.of(log()).toCome().get(0).number();
      Visit visit = CourseState.of(log()).toCome().get(0);
      boolean last = CourseState.of(log()).toCome().size() == 1;
      boolean other = last && !visit.injections().isEmpty();
      keys.add(asked(number, "47", other ? (1 + works(visit).size()) + " a-4-2 1.2" : "", ""));
      if (other) {
        var given = log().recorded().get(log().recorded().size() - 1).done().injections().get(0);
        assertEquals("articaine-4-200 1.2", given.agent() + " " + given.ml());
      }
    }
    System.err.println(
        "keys of record --ask by visit: " + keys.stream().map(String::length).toList());
    assertTrue(keys.size() >= 4, keys.toString());
    assertTrue(keys.stream().allMatch(one -> one.length() <= 25), keys.toString());
  }

  private static List<String> works(Visit visit) {
    return visit.steps().stream().map(s -> s.area() + " " + s.pass().word()).distinct().toList();
  }

  private static int item(Visit visit, String work) {
    assertTrue(works(visit).contains(work), work + " of " + works(visit));
    return 1 + works(visit).indexOf(work);
  }

  private String asked(int visit, String minutes, String except, String more) throws Exception {
    record("--book=" + visit + " 2026-03-02T09:30 80 ines");
    int before = log().recorded().size();
    String keys =
        "\n\n\n" + minutes + "\n" + except + "\n" + (more.isEmpty() ? "" : more + "\n") + "\n\n";
    Run run = Run.withInput(keys, "record", course, AT, "--ask");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(before + 1, log().recorded().size());
    assertEquals("ines", log().recorded().get(before).done().clinician());
    return keys;
  }

  private void again() {
    Run run = Run.of("plan", "--course", course, "--effort", "quick", "--adopt");
    assertEquals(Status.DONE, run.status(), run.err());
  }

  @Test
  void theWordsOfTheSheetAreTaken() throws Exception {
    var step = CourseState.of(log()).toCome().get(0).steps().get(0);
    String sheet =
        switch (step.pass()) {
          case FINISHING -> "Finish";
          case IMPLANT_CARE -> "Implant";
          default ->
              step.pass().word().substring(0, 1).toUpperCase(Locale.ROOT)
                  + step.pass().word().substring(1);
        };
    String area = step.area().toString().replace("posterior", "post").replace("anterior", "ant");
    for (String share : List.of("half", "50 %", "50%", ".5")) {
      Files.copy(Path.of(begun), Path.of(course), StandardCopyOption.REPLACE_EXISTING);
      assertEquals(Status.DONE, visitOne("--part=" + sheet + " " + area + "=" + share).status());
      assertEquals(0.5, recorded().steps().stream().mapToDouble(StepDone::share).min().orElse(1));
    }
    Files.copy(Path.of(begun), Path.of(course), StandardCopyOption.REPLACE_EXISTING);
    Run run =
        Run.withInput(
            "\n\nC2\n64\n" + sheet + " " + area + " 30 %\n\n\n", "record", course, AT, "--ask");
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals(0.3, recorded().steps().stream().mapToDouble(StepDone::share).min().orElse(1));
  }

  @Test
  void answersThatEndTooSoonWriteNothing() throws Exception {
    Run run = Run.withInput("1\n2026-03-02\n", "record", course, AT, "--ask");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().endsWith("The answers ended too soon; nothing was written.\n"));
    assertEquals(1, log().entries().size());
  }

  @Test
  void bookingsAreKeptAndHeldToThePlan() throws Exception {
    assertEquals(
        Status.DONE,
        record("--book=2 2026-03-09T09:30 80 C2", "--book=3 2026-03-16T09:30 80").status());
    assertEquals(80, CourseState.of(log()).booked().get(2).minutes());
    Run wrong = record("--book=9 2026-03-09T09:30 80");
    assertEquals(Status.FILE, wrong.status());
    assertEquals(
        "--book: found visit 9; allowed: a visit to come, one of [1, 2, 3]\n", wrong.err());
    assertEquals(Status.USAGE, record("--book=2 tomorrow 80").status());
  }

  @Test
  void theLastEntryThatWasCutOffIsTold() throws Exception {
    visitOne();
    byte[] whole = Files.readAllBytes(Path.of(course));
    Files.write(Path.of(course), Arrays.copyOf(whole, whole.length - 40));
    Run run = record();
    assertEquals(Status.DONE, run.status());
    assertEquals(
        course + ": Entry 2 at the end was cut off while it was being written and is missing.\n",
        run.err());
    assertEquals(Status.DONE, visitOne().status());
    assertEquals(1, log().recorded().size());
  }

  @Test
  void whatCouldNotBeReadAgainIsNotWritten() throws Exception {
    String before = Files.readString(Path.of(course));
    Run run = record("--book=1 2026-03-09T09:30 6000 C2");
    assertEquals(Status.FILE, run.status(), run.err());
    assertTrue(run.err().contains("found 6000; allowed: a whole number from 1 to 1440"), run.err());
    assertEquals(before, Files.readString(Path.of(course)));
  }

  @Test
  void whatIsSaidAndUnsaidAtOnceIsWrongUsage() throws Exception {
    for (Run run :
        List.of(
            visitOne("--no-injections", "--given=inferior alveolar LR lidocaine-2-100 1.5"),
            visitOne("--why=a slip"),
            visitOne("--correct=-3"),
            visitOne("--correct=1"))) {
      assertEquals(Status.USAGE, run.status(), run.err());
    }
    assertEquals(1, log().entries().size());
  }

  @Test
  void aPlanNeverTakesTheCoursesPlace() throws Exception {
    String before = Files.readString(Path.of(course));
    Run run = Run.of("plan", "--course", course, "-o", course, "--force");
    assertEquals(Status.USAGE, run.status(), run.err());
    assertEquals(before, Files.readString(Path.of(course)));
  }

  @Test
  void planningOnKeepsWhatStandsAndSaysWhatChanges() throws Exception {
    visitOne();
    Run none = Run.of("plan", "--course", course, "--way", "99");
    assertEquals(Status.USAGE, none.status(), none.err());
    assertTrue(none.err().contains("--way: is 99; "), none.err());
    Run same = Run.of("plan", "--course", course);
    assertEquals(Status.DONE, same.status(), same.err());
    assertTrue(same.out().startsWith("Against the plan before\nNothing changes: "), same.out());
    assertTrue(same.out().contains("VISIT 2 of 3"), same.out());
  }

  /** A course that carries on another counts its visits on, and knows what is booked. */
  @Test
  void pagesOfWhatIsLeftCountOnAndSayWhatIsBooked() throws Exception {
    visitOne();
    record("--book=2 2026-03-09T09:30 800 C2");
    String pages = Run.of("plan", "--course", course, "--format", "html").out();
    assertTrue(pages.contains("Visit 2 of 3"), "visits are counted on");
    assertTrue(pages.contains("Visit 3 of 3"), "visits are counted on");
    assertTrue(pages.contains("2026-03-09 09:30, 800\u00a0min, C2</bdi>"), "the desk's booking");
    assertTrue(pages.contains("9 March 2026"), "the patient's day");
  }

  @Test
  void whatWasLeftIsStagedAuditedAndAdopted() throws Exception {
    String work = someWork();
    visitOne("--not-done=" + work);
    record("--book=2 2026-03-09T09:30 80", "--book=3 2026-03-16T09:30 80");
    String plan = folder.resolve("again.json").toString();
    Run again = Run.of("plan", "--course", course, "-o", plan, "--adopt");
    assertEquals(Status.DONE, again.status(), again.err());
    assertTrue(again.err().contains(work.split(" ")[2] + " pass of "), again.err());
    assertTrue(again.err().contains("wrote entry 4, replanned."), again.err());
    Run audit = Run.of("audit", plan, "--course", course);
    assertTrue(audit.done().contains("nothing found"), audit.out());
    assertEquals(
        Status.REFUSED,
        Run.of("audit", plan, "--chart", CHART).status(),
        "without what was done before, work is missing");
    Event last = log().entries().get(3).event();
    assertFalse(((Event.Replanned) last).changes().isEmpty());
    String adopted = Run.of("plan", "--course", course).done();
    assertTrue(adopted.contains("Nothing changes"), adopted);
  }

  @Test
  void changesAreDataAndADeadlineChangesNothingThatIsNotSought() throws Exception {
    visitOne("--not-done=" + someWork());
    String plan = Run.of("plan", "--course", course, "--format", "json").out();
    List<PlanChange> changes = PlanReader.read("plan", plan).changes();
    assertNotNull(changes);
    assertFalse(changes.isEmpty());
    assertTrue(changes.stream().allMatch(change -> change.visit() != null), plan);
    Run.withInput(plan, "audit", "-", "--course", course).done();
    Run.of("plan", "--course", course, "--adopt");
    Run same = Run.of("plan", "--course", course, "--deadline", "0.001");
    assertTrue(same.done().startsWith("Against the plan before\nNothing changes: "), same.out());
  }

  @Test
  void anotherPracticeIsAdoptedWithItsDay() throws Exception {
    visitOne();
    String clinic = Golden.demo("small-clinic.practice.json");
    Run again = Run.of("plan", "--course", course, "--practice", clinic, "--adopt");
    assertEquals(Status.DONE, again.status(), again.err());
    assertTrue(
        again.out().contains("The practice's figures are those of DEMO small clinic, not of"),
        again.out());
    assertEquals("DEMO small clinic", log().practice().name());
    assertTrue(Run.of("plan", "--course", course).done().contains("Nothing changes"), "adopted");
  }

  @Test
  void findingsNameVisitsByThePlansNumbers() throws Exception {
    visitOne();
    String plan = Run.of("plan", "--course", course, "--format", "json").out();
    String wrong = plan.replaceFirst("\"tipChanges\": [0-9]+", "\"tipChanges\": 77");
    Run audit = Run.withInput(wrong, "audit", "-", "--course", course);
    assertEquals(Status.REFUSED, audit.status());
    assertTrue(audit.out().contains("isit 2"), audit.out());
    assertFalse(audit.out().contains("isit 1"), audit.out());
  }

  @Test
  void bookingsAreTakenFromTheDiaryOnce() throws Exception {
    String plan = shared.resolve("plan.json").toString();
    String diary = AtTheDesk.copyDiary(folder).toString();
    Run none = record("--booked-in", diary);
    assertEquals(Status.FILE, none.status(), none.err());
    Run.of("book", plan, "--diary", diary, "--from", "2026-03-09", "--take", "1").done();
    assertEquals(Status.DONE, record("--booked-in", diary).status());
    List<Event.Appointment> visits =
        ((Event.Booked) log().entries().get(log().entries().size() - 1).event()).visits();
    assertEquals(List.of(1, 2, 3), visits.stream().map(Event.Appointment::visit).toList());
    assertEquals(LocalDateTime.parse("2026-03-11T11:40"), visits.get(0).start());
    assertEquals(Status.FILE, record("--booked-in", diary).status(), "nothing is new");
  }

  @Test
  void aPlanThatFailsItsAuditBeginsNoCourse() throws Exception {
    String plan = shared.resolve("plan.json").toString();
    String other = folder.resolve("other.ndjson").toString();
    Run run = Run.of("record", other, "--start", plan, "--chart", Golden.demo("moderate.json"), AT);
    assertEquals(Status.REFUSED, run.status());
    assertFalse(Files.exists(Path.of(other)));
    Run again = Run.of("record", course, "--start", plan, "--chart", CHART, AT);
    assertEquals(Status.USAGE, again.status());
    assertEquals(course + ": exists already; a course is never written over.\n", again.err());
  }

  @Test
  void jsonTellsWhereTheCourseStands() throws Exception {
    visitOne();
    String json = record("--format", "json").out();
    assertTrue(json.startsWith("{\n  \"schema\": \"quadrille/course-state/1\""), json);
    assertTrue(json.contains("\"minutes\": 64"), json);
  }

  @Test
  void plannedAreasAreShownAsFarAsTheyHaveCome() throws Exception {
    String work = someWork();
    String area = work.substring(0, work.lastIndexOf(' '));
    assertTrue(record().out().replaceAll("\\s+", " ").contains("to do: "), record().out());
    visitOne("--part=" + work + "=0.25");
    String shown = record("--show").out();
    Golden.checkWidth(shown);
    String line = shown.replaceAll("\\s+", " ");
    assertTrue(line.contains("part done: " + area + " ("), shown);
    assertTrue(line.contains("25 % done"), shown);
    assertTrue(line.contains("done: "), shown);
    assertTrue(line.contains("Left over, in no visit to come"), shown);
    String json = record("--format", "json").out();
    assertTrue(json.contains("\"extent\": \"part done\""), json);
  }

  @Test
  void progressIsWrittenAsAPage() throws Exception {
    visitOne();
    String page = folder.resolve("progress.html").toString();
    Run run = record("--show", "--format", "html", "-o", page);
    assertEquals(Status.DONE, run.status(), run.err());
    assertEquals("Wrote " + page + ".\n", run.err());
    assertTrue(Files.readString(Path.of(page)).contains("id=\"progress\""));
    assertEquals(Status.USAGE, record("--show", "--format", "html", "-o", page).status());
    String patient = record("--format", "html", "--page", "patient", "--language", "de").done();
    assertTrue(patient.contains("<html lang=\"de\">"), patient);
    assertFalse(patient.contains("id=\"progress\""), patient);
  }

  @Test
  void aPageNeverTakesTheCoursesPlaceNorGoesWithoutBeingAskedFor() throws Exception {
    byte[] before = Files.readAllBytes(Path.of(course));
    for (Run run :
        List.of(
            record("--show", "--format", "html", "-o", course, "--force"),
            record("--show", "--page", "patient"),
            record("--show", "--language", "de"),
            visitOne("--format", "html"),
            visitOne("-o", folder.resolve("x.html").toString()),
            record("--show", "--format", "html", "--page", "desk"))) {
      assertEquals(Status.USAGE, run.status(), run.err());
    }
    assertTrue(Arrays.equals(before, Files.readAllBytes(Path.of(course))));
  }

  @Test
  void whatIsOddIsRecordedAndSaid() throws Exception {
    Run over = visitOne("--given=inferior alveolar LR lidocaine-2-100 40");
    assertEquals(Status.DONE, over.status(), over.err());
    assertTrue(over.err().contains("wrote entry 2, visit-done."), over.err());
    assertTrue(
        over.err().contains("Please look again, it is recorded as said: visit 1, what it gave"),
        over.err());
    assertTrue(over.err().contains("lidocaine 2 % with epinephrine 1:100,000 at "), over.err());
    Run early = record("--visit=2", "--date=2026-02-27", "--clinician=C2", "--minutes=60");
    assertTrue(
        early.err().contains("visit 2 is dated 2026-02-27, before visit 1 (2026-03-02)"),
        early.err());
    assertFalse(early.err().contains("lidocaine"), "only its own doubts: " + early.err());
    String shown = record("--show").out();
    Golden.checkWidth(shown);
    assertTrue(shown.contains("To look at again"), shown);
    assertTrue(shown.replaceAll("\\s+", " ").contains("is dated 2026-02-27"), shown);
    assertTrue(record("--format", "json").out().contains("\"doubts\": ["), shown);
    String page = record("--show", "--format", "html").done();
    assertTrue(page.contains("visit 2 is dated 2026-02-27".substring(1)), page);
    assertTrue(page.contains("OVER THE MAXIMUM"), page);
  }
}
