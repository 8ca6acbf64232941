package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import quadrille.cli.render.SamplePlan;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.file.DiaryFile;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Numbering;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.course.StopQuestion;

/** Offers from the demo diary for the sample plan, and taking one. */
final class BookCommandTest extends AtTheDesk {

  private static final Pattern CODE = Pattern.compile("--seen ([0-9a-f]{8})");

  private static String code(String answer) {
    Matcher code = CODE.matcher(answer);
    assertTrue(code.find(), answer);
    return code.group(1);
  }

  @Test
  void wholeAnswer() {
    String text = book().done();
    Golden.check("book.txt", text);
    Golden.checkWidth(text);
    // Of each of the three offers its name, a line a visit, and the re-evaluation.
    assertEquals(1 + 4 * 3 + 2, text.lines().count(), text);
  }

  @Test
  void wholeAnswerAsJson() {
    Golden.check("book.json", book("--format", "json").done());
  }

  @Test
  void wholeAnswerWhereThereIsNoWay() {
    Run run = book("--can", "mon-tue 08:00-10:00", "--until", "2026-03-20");
    assertEquals(Status.REFUSED, run.status());
    Golden.check("book-no-way.txt", run.out());
    Golden.checkWidth(run.out());
  }

  /** A patient who can come on two days only, further apart than the plan's longest gap. */
  @Test
  void gapsGrowWhereAClinicianAllowsItAndItIsSaidWhoDid()
      throws IOException, InvalidDocumentException {
    Course plan = PlanReader.read("plan.json", SamplePlan.text()).course();
    write(plan.withGapMaxDays(14));
    String[] away = {"--cannot", "2026-03-03/2026-03-19", "--until", "2026-03-23"};
    Run none = book(away);
    assertEquals(Status.REFUSED, none.status());
    String helps = none.out().replaceAll("\\s+", " ");
    assertTrue(
        helps.contains("4 days more, if a clinician allows it: --longer-gaps 4 --allowed-by NAME"),
        helps);
    List<String> longer = new ArrayList<>(List.of(away));
    longer.addAll(List.of("--longer-gaps", "6", "--allowed-by", "Ada Example"));
    String offers = book(longer.toArray(String[]::new)).done();
    assertTrue(
        offers
            .replaceAll("\\s+", " ")
            .contains(
                "Visit 2 comes 18 days after visit 1, 4 more than the plan's longest gap; allowed"
                    + " by Ada Example."),
        offers);
    Golden.checkWidth(offers);
    longer.addAll(List.of("--format", "json"));
    String json = book(longer.toArray(String[]::new)).done();
    assertTrue(json.contains("\"longer gaps\": 80"), json);
    assertTrue(json.contains("\"allowedBy\": \"Ada Example\""), json);
    longer.addAll(List.of("--take", "1"));
    book(longer.toArray(String[]::new)).done();
    assertEquals(
        new LongerGaps(6, "Ada Example"), read().course("K-1042").orElseThrow().longerGaps());
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(diary)));
    // An alert's own longest gap is not gone over.
    write(plan.withGapMaxDays(14).withGapMostDays(15));
    assertEquals(Status.REFUSED, book(longer.toArray(String[]::new)).status());
  }

  @Test
  void takingAnOfferBooksItsVisits() throws IOException, InvalidDocumentException {
    int before = read().bookings().size();
    String code = code(book().done());
    String taken = book("--take", "2", "--seen", code).done();
    assertTrue(taken.startsWith("Booked for K-1042\n2  "), taken);
    assertEquals(before + 2, read().bookings().size());
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(diary)));
    Run again = book();
    assertEquals(Status.REFUSED, again.status());
    assertEquals("K-1042: all its visits are booked.\n", again.err());
  }

  /** Planned while nobody had taken the history: held, said so everywhere; then promised. */
  @Test
  void whatIsBookedOfAProvisionalPlanIsHeldUntilItIsPlannedAgain()
      throws IOException, InvalidDocumentException {
    Course sample = PlanReader.read("plan.json", SamplePlan.text()).course();
    Course course =
        sample.withVisits(
            sample.visits().stream()
                .map(visit -> visit.withStopQuestions(List.of(StopQuestion.Known.TAKE_THE_HISTORY)))
                .toList());
    write(course.withCautions(List.of(Caution.Known.HISTORY_NOT_TAKEN)));
    String offers = book().done();
    assertTrue(offers.replaceAll("\\s+", " ").contains("Held only, not to be promised"), offers);
    assertTrue(book("--format", "json").done().contains("\"status\": \"held\""));
    Path ours = folder.resolve("ours.ics");
    Path theirs = folder.resolve("theirs.ics");
    Path fhir = folder.resolve("course.json");
    book(
        "--take",
        "1",
        "--ics-practice",
        ours.toString(),
        "--ics-patient",
        theirs.toString(),
        "--fhir",
        fhir.toString());
    assertEquals(Set.of(BookingStatus.HELD), statuses());
    String practice = Files.readString(ours).replace("\r\n ", "");
    assertTrue(
        practice.contains("DESCRIPTION:STOP: Take the medical history before anything is touched."),
        practice);
    assertEquals(2, practice.split("STATUS:TENTATIVE", -1).length - 1, practice);
    String patient = Files.readString(theirs).replace("\r\n ", "");
    assertFalse(patient.contains("history"), patient);
    assertTrue(patient.contains("STATUS:TENTATIVE"), patient);
    assertTrue(Files.readString(fhir).contains("\"status\": \"pending\""));
    assertFalse(Files.readString(fhir).contains("history"));
    assertTrue(Run.of("diary", diary.toString(), "--week", "2026-03-02").out().contains(", held"));

    // Still provisional: nothing to do. Once the history is taken the same times are promised.
    assertEquals(Status.REFUSED, book().status());
    write(course.withCautions(List.of()));
    Run again = book();
    assertTrue(again.out().contains("Every visit keeps its time."), again.out());
    assertTrue(again.err().contains(" will be promised: its plan is not provisional"), again.err());
    Run taken = book("--take", "1", "--ics-practice", ours.toString(), "--force");
    assertTrue(taken.err().contains(" is promised: its plan is not provisional"), taken.err());
    assertEquals(Set.of(BookingStatus.PROMISED), statuses());
    assertTrue(Files.readString(ours).contains("STATUS:CONFIRMED"), Files.readString(ours));
    assertTrue(Files.readString(ours).contains("SEQUENCE:1"), Files.readString(ours));
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(diary)));
  }

  /** A case is all that a diary and a plan know a patient by. */
  @Test
  void aPlanOfAnotherPatientOfTheSameCaseIsRefusedByName()
      throws IOException, InvalidDocumentException {
    Run twice = Run.of("book", plan, plan, "--diary", diary.toString(), "--from", "2026-03-02");
    assertEquals(Status.USAGE, twice.status());
    assertTrue(twice.err().contains("K-1042: two of the plans are of this case"), twice.err());
    book("--take", "1").done();
    Diary read = read();
    Files.writeString(
        diary,
        DiaryWriter.write(
            read.withBookings(
                read.bookings().stream()
                    .map(one -> one.id().equals("K-1042/1") ? one.with(BookingStatus.DONE) : one)
                    .toList())));
    String before = Files.readString(diary);
    assertEquals("K-1042: all its visits are booked.\n", book().err());
    Course course = PlanReader.read("plan.json", Files.readString(Path.of(plan))).course();
    write(
        course.withVisits(
            course.visits().stream()
                .map(visit -> visit.withBookedMinutes(visit.bookedMinutes() + 10))
                .toList()));
    Run other = book("--take", "1");
    assertEquals(Status.REFUSED, other.status());
    assertTrue(other.err().contains("K-1042: visit 1 took place"), other.err());
    assertTrue(other.err().contains("another patient"), other.err());
    assertEquals(before, Files.readString(diary));
  }

  private void write(Course course) throws IOException {
    Files.writeString(Path.of(plan), PlanWriter.writeFacts(course, Numbering.ISO3950));
  }

  private Set<BookingStatus> statuses() throws IOException, InvalidDocumentException {
    return read().bookings().stream()
        .filter(booking -> booking.caseName().equals("K-1042"))
        .map(Booking::status)
        .collect(Collectors.toSet());
  }

  @Test
  void offersOfAnotherDiaryAreNotTaken() throws IOException {
    String code = code(book().done());
    String changed = Files.readString(diary).replace("DEMO-203", "DEMO-999");
    Files.writeString(diary, changed);
    Run run = book("--take", "1", "--seen", code);
    assertEquals(Status.REFUSED, run.status());
    assertTrue(run.err().contains("are not the offers of " + code + " any more"), run.err());
    assertTrue(run.out().contains("Offers for K-1042"), run.out());
    assertEquals(changed, Files.readString(diary));
  }

  @Test
  void everybodyWhoWaitsIsBookedTogether() throws IOException, InvalidDocumentException {
    String text = book("--waiting").done();
    assertTrue(text.startsWith("Offers for 2 courses\n"), text);
    Golden.checkWidth(text);
    String taken = book("--waiting", "--take", "1", "--seen", code(text)).done();
    assertTrue(taken.startsWith("Booked for 2 courses\n"), taken);
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(diary)));
    Diary now = read();
    assertTrue(now.courses().stream().allMatch(course -> now.unbooked(course).isEmpty()));
  }

  @Test
  void whoDoesNotWaitForTheEndGetsWhatIsFoundAndIsToldSo() {
    Run run =
        Run.interrupted(
            "book", plan, "--waiting", "--diary", diary.toString(), "--from", "2026-03-02");
    assertEquals(Status.DONE, run.status(), run.err());
    assertTrue(run.out().startsWith("Offers for 2 courses\n"), run.out());
    assertTrue(run.err().contains("Taking the best found so far."), run.err());
    assertTrue(run.err().contains("The search was cut short"), run.err());
    Run wrong = Run.of("book", "--waiting", "--diary", diary.toString(), "--deadline", "0");
    assertEquals(Status.USAGE, wrong.status());
    assertTrue(wrong.err().contains("--deadline: must be more than 0"), wrong.err());
  }

  @Test
  void nobodyWhoWaitsIsSaid() {
    book("--waiting", "--take", "1");
    Run run = Run.of("book", "--waiting", "--diary", diary.toString(), "--from", "2026-03-02");
    assertEquals(Status.REFUSED, run.status());
    assertEquals("book: no course waits in the diary.\n", run.err());
  }

  @Test
  void whatTheDiaryKnowsOfThePatientStaysBesideWhatIsSaidNow()
      throws IOException, InvalidDocumentException {
    // The whole of March does not suit, as the diary has it from the first telephone call.
    book("--cannot", "2026-03-02/2026-03-31", "--take", "1");
    Diary asked = read();
    CourseRequest course = asked.course("K-1042").orElseThrow();
    assertFalse(course.availability().off().isEmpty());
    Files.writeString(
        diary,
        DiaryWriter.write(
            asked.withBookings(
                asked.bookings().stream()
                    .filter(booking -> !booking.caseName().equals("K-1042"))
                    .toList())));
    String offers = book("--cannot", "2026-04-10", "--format", "json").done();
    assertFalse(offers.contains("\"start\": \"2026-03"), offers);
    assertFalse(offers.contains("\"start\": \"2026-04-10"), offers);
  }

  @Test
  void wishesWithoutAPlanAreWrongUsage() {
    Run run =
        Run.of("book", "--waiting", "--diary", diary.toString(), "--likes-clinician", "nobody");
    assertEquals(Status.USAGE, run.status());
    assertEquals(
        "--can, --cannot, --patient-ics, --likes and --likes-clinician: are for one plan at a"
            + " time.\n",
        run.err());
  }

  @Test
  void wishesAreKeptAndSaid() {
    String text =
        book("--likes", "fri 09:00-17:30", "--likes-clinician", "ines", "--format", "json").done();
    assertTrue(text.contains("\"as preferred\""), text);
  }

  @Test
  void wrongUsageIsSaid() {
    assertWrong(
        "--can: is \"monday\"; hours such as \"mon-wed,fri 08:00-12:00\" are allowed.",
        "--can",
        "monday");
    assertWrong(
        "--cannot: is \"soon\"; 2026-03-05 or 2026-03-05/2026-03-12 are allowed.",
        "--cannot",
        "soon");
    assertWrong(
        "--likes-clinician: the diary has no \"x\"; it has hanna, ines, jon.",
        "--likes-clinician",
        "x");
    assertWrong("--offers: is 0; 1 to 9 are allowed.", "--offers", "0");
    assertWrong("--take: is 7; there are offers 1 to 3.", "--take", "7");
    assertWrong(
        "Error: Missing required argument(s): --take=N\nSee quadrille book --help.",
        "--seen",
        "00000000");
    assertWrong(
        "--until: is 2026-03-01; 2026-03-02 to 2028-03-01 are allowed.", "--until", "2026-03-01");
  }

  private void assertWrong(String message, String... options) {
    Run run = book(options);
    assertEquals(Status.USAGE, run.status(), run.err());
    assertEquals(message + "\n", run.err());
  }
}
