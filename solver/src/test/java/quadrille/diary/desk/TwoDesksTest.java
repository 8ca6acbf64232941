package quadrille.diary.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.Journal;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.Signature;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.book.Why;
import quadrille.diary.booking.DiaryChange;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.Offers;
import quadrille.diary.booking.Taking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.diary.file.RefusedDiaryException;
import quadrille.document.FileStore;
import quadrille.mouths.Tries;

/**
 * Two desks change one diary by all verbs at random, over changes of clock and a leap day. A
 * checker that knows nothing of the audit looks at each state: nothing that was put somewhere lies
 * where it may not, nothing is lost, and the journal explains everything.
 */
final class TwoDesksTest {

  private static final int RUNS = Tries.of(1, 25);
  private static final int CHANGES = 100;
  private static final Map<Deed, Integer> MADE = new TreeMap<>();

  @TempDir private Path folder;
  private Path file = Path.of("");
  private Random random = new Random(0);
  private Instant now = Instant.EPOCH;
  private Diary beginning = practice(ZoneId.of("UTC"), LocalDate.EPOCH, false);
  private final Set<String> forgotten = new HashSet<>();
  private boolean aided;
  private int late;
  private int stopped;

  /**
   * Each zone's runs begin some days later than the one before, all over its change or leap day.
   */
  @ParameterizedTest
  @CsvSource({
    "Europe/Berlin, 2026-03-16, 1",
    "America/New_York, 2026-10-19, 2",
    "Australia/Lord_Howe, 2026-09-21, 3",
    "Europe/Berlin, 2028-02-21, 4"
  })
  void nothingIsIllegalAndNothingIsLost(String zone, LocalDate monday, long seed) throws Exception {
    for (int run = 0; run < RUNS; run++) {
      random = new Random(seed + 4L * run);
      aided = random.nextBoolean();
      beginning = practice(ZoneId.of(zone), monday.plusDays(run % 5), aided);
      now = monday.plusDays(run % 5).atTime(8, 0).atZone(beginning.zone()).toInstant();
      forgotten.clear();
      file = folder.resolve("diary-" + run + ".json");
      Files.writeString(file, DiaryWriter.write(beginning));
      runs();
    }
    assertTrue(late > 0 && stopped > 0, late + " late, " + stopped + " stopped");
  }

  @AfterAll
  static void allVerbsWereUsed() {
    int all = MADE.values().stream().mapToInt(Integer::intValue).sum();
    System.out.println(all + " changes by two desks: " + MADE);
    Set<Deed> verbs = EnumSet.allOf(Deed.class);
    verbs.remove(Deed.EXPIRE);
    assertTrue(MADE.keySet().containsAll(verbs), MADE.toString());
  }

  private void runs() throws Exception {
    List<@Nullable LoadedDiary> desks = new ArrayList<>(List.of(read(), read()));
    int changes = 0;
    while (changes < CHANGES) {
      if (random.nextInt(4) == 0) {
        now = now.plus(Duration.ofMinutes(random.nextInt(60 * 20)));
      }
      int desk = random.nextInt(2);
      if (random.nextInt(4) > 0) {
        desks.set(desk, read());
      }
      LoadedDiary seen = desks.get(desk);
      Diary before = read().diary();
      if (!changed(seen.asOf(now))) {
        assertEquals(before, read().diary());
        continue;
      }
      changes++;
      Diary after = read().diary();
      // What the other desk read is another diary now, and nothing of it was written.
      assertEquals(DiaryWriter.write(before), DiaryWriter.write(seen.diary()));
      check(Journal.asOf(before, now), after);
      JournalEntry entry = after.journal().get(after.journal().size() - 1);
      MADE.merge(entry.did(), 1, Integer::sum);
      if (entry.did().undoable() && random.nextInt(3) == 0) {
        assertTrue(change(read(), new DeskChange.Undo(false), null), entry.toString());
        MADE.merge(Deed.UNDO, 1, Integer::sum);
        changes++;
        assertEquals(
            DiaryWriter.writeWithoutJournal(Journal.asOf(before, now)),
            DiaryWriter.writeWithoutJournal(read().diary()),
            entry.toString());
        explained(read().diary());
      }
    }
  }

  // ---- changes

  private LoadedDiary read() throws Exception {
    return DiaryFile.read(file);
  }

  private boolean changed(LoadedDiary seen) throws Exception {
    Diary diary = seen.diary();
    List<Booking> coming = diary.bookings().stream().filter(Booking::coming).toList();
    int verb = random.nextInt(12);
    if (verb < 3 || coming.isEmpty()) {
      return booked(seen);
    }
    Booking one = coming.get(random.nextInt(coming.size()));
    return switch (verb) {
      case 3 -> rebooked(seen, one);
      case 4 ->
          change(
              seen,
              new DeskChange.CallOff(one.id(), random.nextBoolean()),
              random.nextInt(3) == 0 ? Why.PATIENT_MISSED : Why.PATIENT_ILL);
      case 5 ->
          random.nextInt(4) == 0
              && change(seen, new DeskChange.EndCourse(one.caseName()), Why.MEDICAL);
      case 6, 7 -> moved(seen, one);
      case 8 ->
          change(
              seen,
              new DeskChange.Hold(
                  one.id(),
                  random.nextBoolean() ? null : now.plusSeconds(3600L * (1 + random.nextInt(48)))),
              null);
      case 9 -> change(seen, new DeskChange.Promise(one.id()), null);
      case 10 -> change(seen, new DeskChange.Done(one.id()), null);
      default ->
          random.nextInt(8) == 0
              ? forgotten(seen, one.caseName())
              : change(seen, new DeskChange.Undo(false), null);
    };
  }

  /** The course is ended first, and the patient forgotten if nothing goes on. */
  private boolean forgotten(LoadedDiary seen, String caseName) throws Exception {
    boolean ended = change(seen, new DeskChange.EndCourse(caseName), Why.MEDICAL);
    if (ended) {
      change(read(), new DeskChange.Forget(caseName), null);
    }
    return ended;
  }

  private Signature signed(@Nullable Why why) {
    return new Signature("desk", now, why, null);
  }

  private boolean change(LoadedDiary seen, DeskChange change, @Nullable Why why) throws Exception {
    ChangeAnswer answer = ChangeDesk.ask(seen, change, signed(why));
    if (!(answer instanceof ChangeAnswer.Changed changed)) {
      stopped += answer instanceof ChangeAnswer.Stopped ? 1 : 0;
      return false;
    }
    boolean written = ChangeDesk.write(file, changed, FileStore.USUAL);
    late += written ? 0 : 1;
    if (written && change instanceof DeskChange.Forget forget) {
      forgotten.add(forget.caseName());
    }
    return written;
  }

  private boolean booked(LoadedDiary seen) throws Exception {
    Diary diary = seen.diary();
    LocalDate tomorrow = day(diary, now).plusDays(1);
    CourseRequest course;
    if (random.nextInt(3) == 0) {
      course = course("N-" + random.nextInt(1_000_000), tomorrow, aided);
    } else {
      List<CourseRequest> waiting =
          diary.courses().stream().filter(one -> !diary.unbooked(one).isEmpty()).toList();
      if (waiting.isEmpty()) {
        return false;
      }
      course = waiting.get(random.nextInt(waiting.size()));
    }
    Diary asked = Taking.asking(diary, course);
    List<Offer> offers =
        Offers.of(asked, course, BookingWeights.defaults(), tomorrow, tomorrow.plusDays(40), 2);
    if (offers.isEmpty()) {
      return false;
    }
    Instant until =
        random.nextInt(3) == 0 ? now.plusSeconds(3600L * (1 + random.nextInt(48))) : null;
    Diary after = Taking.booked(asked, offers.get(random.nextInt(offers.size())).visits(), until);
    try {
      DiaryFile.replace(
          file,
          seen,
          Journal.entered(diary, after, Deed.BOOK, signed(null), Map.of()),
          now,
          FileStore.USUAL);
      return true;
    } catch (quadrille.diary.file.ChangedDiaryException somebodyElse) {
      late++;
      return false;
    }
  }

  private boolean rebooked(LoadedDiary seen, Booking one) throws Exception {
    Diary diary = seen.diary();
    LocalDate tomorrow = day(diary, now).plusDays(1);
    LocalDate some = tomorrow.plusDays(random.nextInt(20));
    DiaryChange change =
        switch (random.nextInt(4)) {
          case 0 -> new DiaryChange.Cancelled(one.id());
          case 3 -> new DiaryChange.Missed(one.id());
          case 1 ->
              new DiaryChange.Away(diary.clinicians().get(random.nextInt(3)).id(), some, some);
          default -> new DiaryChange.Closed(some, some);
        };
    try {
      RebookingAnswer answer =
          RebookingDesk.rebook(
              seen,
              List.of(change),
              BookingWeights.defaults(),
              tomorrow,
              tomorrow.plusDays(40),
              now);
      boolean written =
          answer instanceof RebookingAnswer.Rebooked rebooked
              && RebookingDesk.write(file, rebooked, signed(null), FileStore.USUAL);
      late += written ? 0 : 1;
      return written;
    } catch (RefusedDiaryException refused) {
      stopped++;
      return false;
    }
  }

  /** Most places are refused, so that several are tried. */
  private boolean moved(LoadedDiary seen, Booking one) throws Exception {
    for (int attempt = 0; attempt < 8; attempt++) {
      Instant to = somewhere(one, seen.diary());
      DeskChange move =
          new DeskChange.Move(one.id(), to, someone(seen.diary()), null, random.nextInt(9) == 0);
      if (change(seen, move, Why.PATIENT_ASKED)) {
        return true;
      }
    }
    return false;
  }

  private Instant somewhere(Booking one, Diary diary) {
    LocalDateTime wall =
        LocalDateTime.ofInstant(one.start(), diary.zone())
            .plusDays(random.nextInt(3) - 1)
            .withHour(random.nextInt(18))
            .withMinute(10 * random.nextInt(6));
    return wall.atZone(diary.zone()).toInstant();
  }

  private @Nullable String someone(Diary diary) {
    return random.nextBoolean() ? null : diary.clinicians().get(random.nextInt(3)).id();
  }

  // ---- the practice

  private static Diary practice(ZoneId zone, LocalDate monday, boolean aided) {
    List<DayOfWeek> all = List.of(DayOfWeek.values());
    List<Clinician> people = new ArrayList<>();
    for (String id : List.of("ada", "ben", "eve")) {
      // One works through the nights in which clocks change.
      boolean nights = id.equals("eve");
      people.add(
          new Clinician(
              id,
              "Invented " + id,
              id.equals("ben") ? List.of() : List.of(Capability.INJECT),
              List.of(
                  new WeeklyHours(
                      nights ? all : all.subList(0, 5),
                      nights ? LocalTime.MIDNIGHT : LocalTime.of(8, 0),
                      nights ? LocalTime.of(8, 0) : LocalTime.of(17, 0),
                      nights
                          ? List.of()
                          : List.of(
                              new WeeklyHours.Break(LocalTime.of(12, 0), LocalTime.of(13, 0))))),
              List.of(),
              List.of()));
    }
    List<CourseRequest> courses = new ArrayList<>();
    for (int i = 1; i <= 5; i++) {
      courses.add(course("K-" + i, monday, aided));
    }
    Diary diary =
        new Diary(
            zone,
            10,
            people,
            List.of(
                new Chair("one", "Chair one", List.of()), new Chair("two", "Chair two", List.of())),
            List.of(),
            new SterileStock(60, List.of(new SterileStock.SterileSet("kit", 2, true))),
            courses,
            List.of(),
            List.of(),
            List.of());
    return aided ? diary.withInjectorMargin(5) : diary;
  }

  private static CourseRequest course(String name, LocalDate asked, boolean aided) {
    List<VisitRequest> visits = new ArrayList<>();
    for (int i = 1; i <= 3; i++) {
      visits.add(
          new VisitRequest(
              i,
              30 + 10 * i,
              i == 2 ? List.of() : List.of(Capability.INJECT),
              List.of("kit"),
              i == 1 ? 0 : 3,
              i == 1 ? 0 : 12,
              List.of(),
              aided && i != 2
                  ? List.of(new NeedleTime(5, 15), new NeedleTime(20, 30))
                  : List.of()));
    }
    return new CourseRequest(name, asked, asked, visits, 6, 12, Availability.ANY, Preferences.NONE);
  }

  // ---- the checker

  private static LocalDate day(Diary diary, Instant moment) {
    return moment.atZone(diary.zone()).toLocalDate();
  }

  private void check(Diary before, Diary after) {
    explained(after);
    for (Booking one : after.bookings()) {
      Optional<Booking> was = before.booking(one.id());
      boolean put =
          one.coming()
              && !was.map(
                      then ->
                          then.coming()
                              && then.start().equals(one.start())
                              && then.clinician().equals(one.clinician())
                              && then.chair().equals(one.chair())
                              && then.injectors().equals(one.injectors()))
                  .orElse(false);
      if (put && one.end().isAfter(now)) {
        legal(after, one);
      }
    }
    for (Booking one : before.bookings()) {
      boolean there = after.booking(one.id()).isPresent();
      Deed did = after.journal().get(after.journal().size() - 1).did();
      assertTrue(there || did == Deed.UNDO || did == Deed.FORGET, one + " is lost by " + did);
    }
  }

  /** One that was put somewhere: minute by minute, and beside every other. */
  private void legal(Diary diary, Booking one) {
    String what = one + " at " + now;
    Clinician who = diary.clinician(one.clinician()).orElseThrow();
    List<NeedleTime> needles =
        diary.course(one.caseName()).flatMap(course -> course.visit(one.visit())).stream()
            .flatMap(visit -> visit.needles().stream())
            .toList();
    boolean self = who.may().containsAll(one.needs());
    assertTrue(self || !needles.isEmpty(), what);
    assertTrue(
        self
            || needles.stream()
                .allMatch(
                    needle ->
                        one.injectors().stream()
                            .anyMatch(
                                call ->
                                    call.from() <= needle.from()
                                        && call.to() >= needle.to()
                                        && diary
                                            .clinician(call.clinician())
                                            .orElseThrow()
                                            .mayInject())),
        what);
    atWork(diary, who, one.start(), 0, one.minutes(), what);
    for (InjectorCall call : one.injectors()) {
      Clinician other = diary.clinician(call.clinician()).orElseThrow();
      atWork(diary, other, one.start(), call.from(), call.to(), what);
    }
    int kits = 1;
    for (Booking other : diary.bookings()) {
      if (other.id().equals(one.id()) || !other.status().takesTime()) {
        continue;
      }
      assertTrue(!clash(one, other), what + " meets " + other);
      Instant back = other.end().plusSeconds(3600);
      kits += !other.start().isAfter(one.start()) && back.isAfter(one.start()) ? 1 : 0;
      if (other.caseName().equals(one.caseName())) {
        int apart = one.visit() - other.visit();
        long days = day(diary, one.start()).toEpochDay() - day(diary, other.start()).toEpochDay();
        assertTrue(apart != 0, what + " twice, " + other);
        assertTrue(Math.abs(apart) != 1 || days * apart >= 3 && days * apart <= 12, what + other);
      }
    }
    assertTrue(kits <= 2, what);
  }

  private static void atWork(
      Diary diary, Clinician who, Instant start, int from, int to, String what) {
    for (int minute = from; minute < to; minute++) {
      LocalDateTime wall = LocalDateTime.ofInstant(start.plusSeconds(60L * minute), diary.zone());
      LocalTime time = wall.toLocalTime();
      WeeklyHours hours = who.hours().get(0);
      assertTrue(hours.days().contains(wall.getDayOfWeek()), what);
      assertTrue(!time.isBefore(hours.from()) && time.isBefore(hours.to()), what);
      assertTrue(
          hours.breaks().stream()
              .noneMatch(pause -> !time.isBefore(pause.from()) && time.isBefore(pause.to())),
          what);
      List<TimeOff> off = new ArrayList<>(who.off());
      off.addAll(diary.closed());
      assertTrue(
          off.stream()
              .noneMatch(
                  away ->
                      !wall.toLocalDate().isBefore(away.first())
                          && !wall.toLocalDate().isAfter(away.last())),
          what);
    }
  }

  /** Whether somebody would be at two places, or two visits in one chair. */
  private static boolean clash(Booking one, Booking other) {
    if (one.chair().equals(other.chair())
        && meet(one.start(), one.end(), other.start(), other.end())) {
      return true;
    }
    return calls(one).stream()
        .anyMatch(
            mine ->
                calls(other).stream()
                    .anyMatch(
                        theirs ->
                            mine.clinician().equals(theirs.clinician())
                                && meet(
                                    one.start().plusSeconds(60L * mine.from()),
                                    one.start().plusSeconds(60L * mine.to()),
                                    other.start().plusSeconds(60L * theirs.from()),
                                    other.start().plusSeconds(60L * theirs.to()))));
  }

  private static boolean meet(Instant from, Instant to, Instant start, Instant end) {
    return from.isBefore(end) && start.isBefore(to);
  }

  /** Everybody who is in a visit, also who treats. */
  private static List<InjectorCall> calls(Booking one) {
    List<InjectorCall> calls = new ArrayList<>(one.injectors());
    calls.add(new InjectorCall(one.clinician(), 0, one.minutes()));
    return calls;
  }

  /** From the beginning, entry by entry, to what stands there now. */
  private void explained(Diary now) {
    Map<String, Booking> bookings = new TreeMap<>();
    Map<String, CourseRequest> courses = new TreeMap<>();
    beginning.courses().forEach(one -> courses.put(one.caseName(), one));
    courses.keySet().removeAll(forgotten);
    int last = 0;
    for (JournalEntry entry : now.journal()) {
      assertTrue(entry.number() > last);
      last = entry.number();
      for (JournalEntry.BookingChange change : entry.bookings()) {
        assertEquals(change.from(), bookings.remove(change.any().id()));
        if (change.to() != null) {
          bookings.put(change.any().id(), change.to());
        }
      }
      for (JournalEntry.CourseChange change : entry.courses()) {
        assertEquals(change.from(), courses.remove(change.caseName()));
        if (change.to() != null) {
          courses.put(change.caseName(), change.to());
        }
      }
    }
    Map<String, Booking> there = new TreeMap<>();
    now.bookings().forEach(one -> there.put(one.id(), one));
    assertEquals(there, bookings);
    assertEquals(Set.copyOf(now.courses()), Set.copyOf(courses.values()));
    assertTrue(now.bookings().stream().noneMatch(one -> forgotten.contains(one.caseName())));
  }
}
