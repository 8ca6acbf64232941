package quadrille.cli.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryReader;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.document.FileStore;

/** The diary's room as a browser sees it, without one. Monday 2 March 2026, eleven in Rome. */
final class DiaryRoomTest {

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-02T10:00:00Z"), ZoneOffset.UTC);

  private static final ZoneId ROME = ZoneId.of("Europe/Rome");

  @TempDir private Path folder;

  private PageServer server;
  private PageSession session;

  @BeforeEach
  void open() throws Exception {
    PracticeFolder practice = new PracticeFolder(folder, FileStore.USUAL, false);
    practice.prepare();
    server =
        PageServer.open(
            practice,
            0,
            CLOCK,
            fault -> {
              throw new IllegalStateException(fault);
            });
    session = new PageSession(server.address());
    write(
        diary(
            booking("A", 1, "2026-03-02T09:00"),
            booking("A", 2, "2026-03-10T09:00"),
            booking("B", 1, "2026-03-03T10:00").heldUntil(null)));
  }

  @AfterEach
  void close() {
    server.close();
  }

  private static Instant at(String local) {
    return LocalDateTime.parse(local).atZone(ROME).toInstant();
  }

  private static Booking booking(String name, int visit, String start) {
    return new Booking(
        name + "/" + visit,
        name,
        visit,
        at(start),
        60,
        "ada",
        "one",
        List.of(),
        List.of(),
        BookingStatus.PROMISED);
  }

  private static CourseRequest course(String name) {
    LocalDate monday = LocalDate.of(2026, 3, 2);
    return new CourseRequest(
        name,
        monday,
        monday,
        List.of(
            new VisitRequest(1, 60, List.of(), List.of(), 0, 0),
            new VisitRequest(2, 60, List.of(), List.of(), 7, 14),
            new VisitRequest(3, 60, List.of(), List.of(), 7, 14)),
        6,
        12,
        Availability.ANY,
        Preferences.NONE);
  }

  private static Diary diary(Booking... bookings) {
    List<WeeklyHours> hours =
        List.of(
            new WeeklyHours(
                List.of(DayOfWeek.values()), LocalTime.of(9, 0), LocalTime.of(17, 0), List.of()));
    return new Diary(
        ROME,
        10,
        List.of(
            new Clinician(
                "ada", "Invented ada", List.of(Capability.INJECT), hours, List.of(), List.of()),
            new Clinician("ben", "Invented ben", List.of(), hours, List.of(), List.of())),
        List.of(new Chair("one", "Chair one", List.of()), new Chair("two", "Chair two", List.of())),
        List.of(),
        new SterileStock(60, List.of()),
        List.of(course("A"), course("B")),
        List.of(bookings),
        List.of(),
        List.of());
  }

  private void write(Diary diary) throws Exception {
    Files.writeString(folder.resolve("diary.json"), DiaryWriter.write(diary));
  }

  private Diary read() throws Exception {
    return DiaryReader.read("diary.json", Files.readString(folder.resolve("diary.json")));
  }

  private Booking booking(String id) throws Exception {
    return read().booking(id).orElseThrow();
  }

  private HttpResponse<String> post(String path, Map<String, String> form) throws Exception {
    return session.send("POST", path, encoded(form), "");
  }

  private static String encoded(Map<String, String> form) {
    return form.entrySet().stream()
        .map(one -> one.getKey() + "=" + URLEncoder.encode(one.getValue(), StandardCharsets.UTF_8))
        .collect(Collectors.joining("&"));
  }

  /** Sends a visit's form as the page has it, with some fields otherwise. */
  private HttpResponse<String> send(String page, String visit, Map<String, String> fields)
      throws Exception {
    Map<String, String> form = new LinkedHashMap<>();
    form.put("revision", between(page, "name=\"revision\" value=\"", "\""));
    form.put("week", between(page, "name=\"week\" value=\"", "\""));
    if (!visit.isEmpty()) {
      form.put("booking", between(after(page, ">" + visit), "name=\"booking\" value=\"", "\""));
    }
    form.put("by", "Ines");
    form.putAll(fields);
    return post("/diary", form);
  }

  private static String after(String page, String mark) {
    assertTrue(page.contains(mark), mark + " in " + page);
    return page.substring(page.indexOf(mark));
  }

  private static String between(String page, String from, String to) {
    String rest = after(page, from).substring(from.length());
    return rest.substring(0, rest.indexOf(to));
  }

  /** The heading that a visit's form stands below. */
  private static String of(String time) {
    return time + "</b>";
  }

  @Test
  void showsTheWeekAndWhatEachCourseNeedsNext() throws Exception {
    HttpResponse<String> week = session.get("/diary");
    assertEquals(200, week.statusCode());
    assertTrue(week.body().contains("Week of Monday 2 March 2026"), week.body());
    assertTrue(week.body().contains(">09:00</text>"), week.body());
    assertTrue(week.body().contains("Chair two"), week.body());
    assertTrue(week.body().contains("visit 1 of 3, Invented ada, Chair one, held"), week.body());
    assertTrue(week.body().contains("What each course needs next"), week.body());
    assertFalse(week.body().contains("href=\"/diary?week=2026-03-09&amp;booking"), week.body());
    assertTrue(session.get("/diary?week=2026-03-09").body().contains("visit 2 of 3"));
    assertEquals(404, session.get("/diary?week=soon").statusCode());
    assertEquals(404, session.get("/diary/more").statusCode());
  }

  @Test
  void movesAVisitAndTakesItBack() throws Exception {
    String page = session.get("/diary").body();
    HttpResponse<String> moved =
        send(
            page,
            of("10:00-11:00"),
            Map.of("do", "move", "day", "2026-03-04", "time", "14:00", "clinician", "ada"));
    assertEquals(303, moved.statusCode(), moved.body());
    assertEquals("/diary?week=2026-03-04&done=1", moved.headers().firstValue("Location").get());
    assertEquals(at("2026-03-04T14:00"), booking("B/1").start());
    String after = session.get("/diary?week=2026-03-04&done=1").body();
    assertTrue(between(after, "role=\"status\"", "</section>").contains("Ines: moved"), after);
    assertEquals(Deed.MOVE, read().journal().get(0).did());
    assertEquals(303, send(after, "", Map.of("do", "undo")).statusCode());
    assertEquals(at("2026-03-03T10:00"), booking("B/1").start());
  }

  @Test
  void holdsPromisesCallsOffAndSaysDone() throws Exception {
    assertEquals(
        303,
        send(
                session.get("/diary").body(),
                of("10:00-11:00"),
                Map.of("do", "hold", "untilDay", "2026-03-02", "untilTime", "18:00"))
            .statusCode());
    assertEquals(at("2026-03-02T18:00"), booking("B/1").until());
    assertEquals(
        303,
        send(session.get("/diary").body(), of("10:00-11:00"), Map.of("do", "promise"))
            .statusCode());
    assertEquals(BookingStatus.PROMISED, booking("B/1").status());
    assertEquals(
        303,
        send(session.get("/diary").body(), of("09:00-10:00"), Map.of("do", "done")).statusCode());
    assertEquals(BookingStatus.DONE, booking("A/1").status());
    assertEquals(
        303,
        send(
                session.get("/diary").body(),
                of("10:00-11:00"),
                Map.of("do", "call-off", "because", "patient-ill", "note", "a cold"))
            .statusCode());
    assertEquals(BookingStatus.CANCELLED, booking("B/1").status());
    assertEquals("a cold", read().journal().get(3).note());
  }

  @Test
  void refusesWhatTheAuditFindsAndKeepsWhatWasTyped() throws Exception {
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    HttpResponse<String> refused =
        send(
            session.get("/diary").body(),
            of("10:00-11:00"),
            Map.of("do", "move", "day", "2026-03-03", "time", "16:30", "clinician", "ada"));
    assertEquals(422, refused.statusCode());
    assertTrue(
        between(refused.body(), "role=\"alert\"", "</section>")
            .contains(
                "B, visit 1: Invented ada does not work at Tue 3 Mar 2026 17:00. Another time or"
                    + " place would do."),
        refused.body());
    // What commands are called says nothing to a page.
    assertFalse(refused.body().contains("Ways out"), refused.body());
    assertFalse(refused.body().contains("call-off B/1"), refused.body());
    assertTrue(refused.body().contains("value=\"16:30\""), refused.body());
    HttpResponse<String> unsaid =
        send(session.get("/diary").body(), of("10:00-11:00"), Map.of("do", "call-off"));
    assertEquals(422, unsaid.statusCode());
    assertEquals(
        422,
        send(session.get("/diary").body(), of("10:00-11:00"), Map.of("do", "promise", "by", " "))
            .statusCode());
    assertEquals(
        422,
        send(
                session.get("/diary").body(),
                of("10:00-11:00"),
                Map.of("do", "move", "day", "", "time", ""))
            .statusCode());
    for (Map<String, String> none :
        List.of(
            Map.of("day", "+999999999-12-31", "time", "10:30"),
            Map.of("day", "9999-12-31", "time", "10:30"),
            Map.of("day", "2026-03-04", "time", "10:30:15"))) {
      Map<String, String> move = new LinkedHashMap<>(none);
      move.put("do", "move");
      HttpResponse<String> wrong = send(session.get("/diary").body(), of("10:00-11:00"), move);
      assertEquals(422, wrong.statusCode());
      assertTrue(wrong.body().contains("Say a day and a time"), wrong.body());
    }
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
  }

  @Test
  void refusesWhatWasSaidOfADiaryThatIsAnotherByNow() throws Exception {
    String mine = session.get("/diary").body();
    String theirs = session.get("/diary").body();
    assertEquals(
        303, send(theirs, of("10:00-11:00"), Map.of("do", "promise", "by", "Hanna")).statusCode());
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    HttpResponse<String> stale =
        send(
            mine,
            of("10:00-11:00"),
            Map.of("do", "move", "day", "2026-03-04", "time", "14:00", "clinician", "ada"));
    assertEquals(409, stale.statusCode());
    String alert = between(stale.body(), "role=\"alert\"", "</section>");
    assertTrue(alert.contains("has been changed"), alert);
    assertTrue(alert.contains("Hanna: promised"), alert);
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
    // As it is now, with what was typed: said again, it is done.
    assertEquals(
        303,
        send(
                stale.body(),
                of("10:00-11:00"),
                Map.of("do", "move", "day", "2026-03-04", "time", "14:00", "clinician", "ada"))
            .statusCode());
  }

  /** What forms call a course, as the page offers times for it. */
  private static String course(String page, String name) {
    return between(after(page, "<bdi>" + name + "</bdi></b>"), "offers?course=", "\"");
  }

  private Map<String, String> taking(String offers) {
    Map<String, String> form = new LinkedHashMap<>();
    for (String name : List.of("course", "seen", "from", "until")) {
      String rest = after(offers, "action=\"/diary/offers\">");
      form.put(name, between(rest, "name=\"" + name + "\" value=\"", "\""));
    }
    form.put("by", "Ines");
    form.put("take", "1");
    return form;
  }

  @Test
  void offersTimesAndBooksOneOfThem() throws Exception {
    String id = course(session.get("/diary").body(), "B");
    HttpResponse<String> offers = session.get("/diary/offers?course=" + id);
    assertEquals(200, offers.statusCode());
    assertTrue(offers.body().contains("best overall"), offers.body());
    assertTrue(offers.body().contains("Re-evaluation"), offers.body());
    HttpResponse<String> late =
        session.get("/diary/offers?course=" + id + "&tuesday=on&earliest=10:00&latest=11:10");
    assertTrue(late.body().contains("Tue\u00a010\u00a0Mar\u00a02026\u00a010:00"), late.body());
    assertFalse(late.body().contains("Mar\u00a02026\u00a009:00"), late.body());
    // What is booked already would not suit the patient any more.
    assertTrue(
        session
            .get("/diary/offers?course=" + id + "&wednesday=on")
            .body()
            .contains("B, visit 1: the patient cannot come at Tue 3 Mar 2026 10:00"));
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    Map<String, String> form = taking(offers.body());
    for (Map<String, String> wrong :
        List.of(
            Map.of("by", ""),
            Map.of("take", "9"),
            Map.of("holdDay", "2026-03-01", "holdTime", "10:00"))) {
      Map<String, String> other = new LinkedHashMap<>(form);
      other.putAll(wrong);
      assertEquals(422, post("/diary/offers", other).statusCode());
    }
    Map<String, String> other = new LinkedHashMap<>(form);
    other.put("seen", "other");
    assertEquals(409, post("/diary/offers", other).statusCode());
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
    HttpResponse<String> taken = post("/diary/offers", form);
    assertEquals(303, taken.statusCode(), taken.body());
    assertTrue(read().unbooked(read().course("B").orElseThrow()).isEmpty());
    assertEquals(Deed.BOOK, read().journal().get(0).did());
    String week = session.get(taken.headers().firstValue("Location").get()).body();
    assertTrue(between(week, "role=\"status\"", "</section>").contains("Ines: booked"), week);
    assertEquals(409, post("/diary/offers", form).statusCode());
    assertEquals(404, session.get("/diary/offers?course=nobody").statusCode());
  }

  @Test
  void takesNoOfferOfADiaryThatIsAnotherByNow() throws Exception {
    String page = session.get("/diary").body();
    String offers = session.get("/diary/offers?course=" + course(page, "B")).body();
    assertEquals(303, send(page, of("10:00-11:00"), Map.of("do", "promise")).statusCode());
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    HttpResponse<String> stale = post("/diary/offers", taking(offers));
    assertEquals(409, stale.statusCode());
    String alert = between(stale.body(), "role=\"alert\"", "</section>");
    assertTrue(alert.contains("has been changed"), alert);
    assertTrue(alert.contains("Ines: promised"), alert);
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
    assertEquals(303, post("/diary/offers", taking(stale.body())).statusCode());
  }

  @Test
  void saysWhatWouldHelpWhereNoTimeIsFree() throws Exception {
    String id = course(session.get("/diary").body(), "B");
    String none =
        session.get("/diary/offers?course=" + id + "&from=2026-03-09&until=2026-03-10").body();
    assertTrue(none.contains("keeps every rule"), none);
    assertTrue(none.contains("looking until"), none);
    assertFalse(none.contains("--until"), none);
    assertTrue(
        session
            .get("/diary/offers?course=" + id + "&from=2026-03-09&until=2026-03-08")
            .body()
            .contains("The last day is the first or a later one"));
    assertTrue(
        session
            .get("/diary/offers?course=" + id + "&earliest=15:00&latest=09:00")
            .body()
            .contains("the earlier first"));
  }

  @Test
  void endsACourse() throws Exception {
    String page = session.get("/diary").body();
    Map<String, String> form = new LinkedHashMap<>();
    form.put("revision", between(page, "name=\"revision\" value=\"", "\""));
    form.put("week", "2026-03-02");
    form.put("course", course(page, "B"));
    form.put("do", "end");
    form.put("by", "Ines");
    assertEquals(422, post("/diary", form).statusCode());
    form.put("because", "patient-asked");
    assertEquals(303, post("/diary", form).statusCode());
    assertEquals(LocalDate.of(2026, 3, 2), read().course("B").orElseThrow().ended());
    assertEquals(BookingStatus.CANCELLED, booking("B/1").status());
    // From a visit, too; what has begun is not called off.
    assertEquals(
        303,
        send(
                session.get("/diary").body(),
                of("09:00-10:00"),
                Map.of("do", "end", "because", "medical"))
            .statusCode());
    assertEquals(BookingStatus.CANCELLED, booking("A/2").status());
    assertEquals(BookingStatus.PROMISED, booking("A/1").status());
  }

  @Test
  void showsWhatAnAbsenceMovesBeforeItIsEntered() throws Exception {
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    String shown = session.get("/diary/absence?who=ada&first=2026-03-03&last=2026-03-04").body();
    assertTrue(shown.contains("Invented ada is away"), shown);
    assertTrue(shown.contains("B, visit 1 of 3: "), shown);
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
    Map<String, String> form = new LinkedHashMap<>();
    form.put("seen", between(shown, "name=\"seen\" value=\"", "\""));
    form.put("who", "ada");
    form.put("first", "2026-03-03");
    form.put("last", "2026-03-04");
    assertEquals(422, post("/diary/absence", form).statusCode());
    form.put("by", "Ines");
    Map<String, String> other = new LinkedHashMap<>(form);
    other.put("last", "2026-03-05");
    assertEquals(409, post("/diary/absence", other).statusCode());
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
    assertEquals(303, post("/diary/absence", form).statusCode());
    assertEquals(1, read().clinician("ada").orElseThrow().off().size());
    assertEquals("ben", booking("B/1").clinician());
    assertEquals(409, post("/diary/absence", form).statusCode());
    for (String wrong :
        List.of(
            "who=nobody&first=2026-03-03&last=2026-03-04",
            "who=ada&first=2026-03-01&last=2026-03-04",
            "first=2026-03-05&last=2026-03-04",
            "first=soon")) {
      assertEquals(422, session.get("/diary/absence?" + wrong).statusCode());
    }
    assertTrue(
        session
            .get("/diary/absence?first=2026-03-20&last=2026-03-20")
            .body()
            .contains("No visit has to move."));
  }

  @Test
  void triesAMoveAndWritesNothing() throws Exception {
    byte[] before = Files.readAllBytes(folder.resolve("diary.json"));
    String page = session.get("/diary").body();
    Map<String, String> form = new LinkedHashMap<>();
    form.put("revision", between(page, "name=\"revision\" value=\"", "\""));
    form.put(
        "booking",
        between(after(page, ">" + of("10:00-11:00")), "name=\"booking\" value=\"", "\""));
    form.put("do", "move");
    form.put("day", "2026-03-04");
    form.put("time", "14:00");
    form.put("clinician", "ada");
    String free = post("/diary/try", form).body();
    assertTrue(free.contains("\"right\": true"), free);
    form.put("time", "16:30");
    String late = post("/diary/try", form).body();
    assertTrue(late.contains("\"right\": false"), late);
    assertTrue(late.contains("Invented ada does not work at Wed 4 Mar 2026 17:00"), late);
    form.put("time", "soon");
    assertTrue(post("/diary/try", form).body().contains("Say a day and a time"));
    form.put("do", "promise");
    assertTrue(post("/diary/try", form).body().contains("\"right\": false"));
    form.put("revision", "other");
    assertTrue(post("/diary/try", form).body().contains("load it again"));
    assertEquals(
        new String(before, StandardCharsets.UTF_8), Files.readString(folder.resolve("diary.json")));
  }

  @Test
  void saysWhatIsMissingWhereThereIsNoDiary() throws Exception {
    Files.delete(folder.resolve("diary.json"));
    assertTrue(session.get("/diary").body().contains("no diary.json"));
  }
}
