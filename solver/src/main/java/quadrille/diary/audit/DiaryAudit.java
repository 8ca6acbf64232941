package quadrille.diary.audit;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableSet;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.ExtraHours;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.calendar.Interval;

/**
 * Reads a diary a second time. It walks through every booked visit minute by minute and looks at
 * the clock on the practice's wall, so it shares nothing with the reckoning in spans that found the
 * time. What has been done, or lies in the past, is history: it takes time, sets, order and gaps of
 * others, but is not judged itself; the hours of today are not those of then.
 */
public final class DiaryAudit {

  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEE d MMM uuuu HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEE d MMM uuuu", Locale.ENGLISH);

  private final Instant now;
  private final Diary diary;
  private final ZoneId zone;
  private final List<DiaryFinding> findings = new ArrayList<>();
  private final Map<String, CourseRequest> courses = new LinkedHashMap<>();
  private final List<Booking> standing = new ArrayList<>();
  private final Map<String, List<Integer>> standingOf = new LinkedHashMap<>();
  private final ByDay standingOn = new ByDay();
  private final ByDay busyOn = new ByDay();

  private DiaryAudit(Diary diary, Instant now) {
    this.now = now;
    this.diary = diary;
    this.zone = diary.zone();
    for (CourseRequest course : diary.courses()) {
      courses.putIfAbsent(course.caseName(), course);
    }
    for (Booking booking : diary.bookings()) {
      if (stands(booking)) {
        int place = standing.size();
        standing.add(booking);
        standingOf.computeIfAbsent(booking.caseName(), none -> new ArrayList<>()).add(place);
        standingOn.add(place, booking.start(), back(end(booking)));
      }
    }
    for (int place = 0; place < diary.busy().size(); place++) {
      Interval time = diary.busy().get(place).time();
      busyOn.add(place, time.start(), back(time.end()));
    }
  }

  /** What may be against a booking: all of its course, and all whose time or sets may meet its. */
  private record Beside(List<Booking> bookings, List<BusyTime> busy) {}

  private Beside beside(Booking booking) {
    Instant back = back(end(booking));
    NavigableSet<Integer> places = standingOn.near(booking.start(), back);
    places.addAll(standingOf.getOrDefault(booking.caseName(), List.of()));
    return new Beside(
        places.stream().map(standing::get).toList(),
        busyOn.near(booking.start(), back).stream().map(diary.busy()::get).toList());
  }

  /**
   * What is wrong with a diary; empty where nothing is. Linked calendars count only once their
   * events have been added to the diary's busy times.
   */
  public static List<DiaryFinding> read(Diary diary) {
    return read(diary, Instant.MIN);
  }

  /**
   * The same.
   *
   * @param now what ended then or before is history
   */
  public static List<DiaryFinding> read(Diary diary, Instant now) {
    return read(diary, now, booking -> true);
  }

  /**
   * The same of some bookings only.
   *
   * @param judged which
   */
  public static List<DiaryFinding> read(Diary diary, Instant now, Predicate<Booking> judged) {
    DiaryAudit audit = new DiaryAudit(diary, now);
    for (Booking booking : audit.standing) {
      if (!audit.history(booking) && judged.test(booking)) {
        Beside beside = audit.beside(booking);
        audit.names(booking);
        audit.asAsked(booking);
        audit.injectors(booking);
        audit.minutes(booking);
        audit.others(booking, beside);
        audit.course(booking, beside.bookings());
        audit.sets(booking, beside);
      }
    }
    return List.copyOf(audit.findings);
  }

  private static boolean stands(Booking booking) {
    return switch (booking.status()) {
      case HELD, PROMISED, DONE -> true;
      case CANCELLED, MISSED -> false;
    };
  }

  private boolean history(Booking booking) {
    return booking.status() == BookingStatus.DONE || end(booking).compareTo(now) <= 0;
  }

  private void find(DiaryRule rule, Booking at, String message, String against, long amount) {
    findings.add(new DiaryFinding(rule, at.id(), message, against, amount));
  }

  private static long shared(Booking booking, Instant start, Instant end) {
    return shared(booking.start(), end(booking), start, end);
  }

  /** How many minutes two spans of time share. */
  private static long shared(Instant one, Instant oneEnd, Instant other, Instant otherEnd) {
    Instant from = one.compareTo(other) > 0 ? one : other;
    Instant to = oneEnd.compareTo(otherEnd) < 0 ? oneEnd : otherEnd;
    return Math.max(1, (to.getEpochSecond() - from.getEpochSecond()) / 60);
  }

  private LocalDateTime wall(Instant moment) {
    return LocalDateTime.ofInstant(moment, zone);
  }

  private String when(Instant moment) {
    return wall(moment).format(WHEN);
  }

  private static Instant after(Instant moment, long minutes) {
    return moment.plusSeconds(60 * minutes);
  }

  private static Instant end(Booking booking) {
    return after(booking.start(), booking.minutes());
  }

  private static boolean meet(Instant start, Instant end, Instant otherStart, Instant otherEnd) {
    return start.compareTo(otherEnd) < 0 && otherStart.compareTo(end) < 0;
  }

  // ---- what a booking names

  private @Nullable Clinician clinician(String id) {
    for (Clinician one : diary.clinicians()) {
      if (one.id().equals(id)) {
        return one;
      }
    }
    return null;
  }

  private @Nullable Chair chair(String id) {
    for (Chair one : diary.chairs()) {
      if (one.id().equals(id)) {
        return one;
      }
    }
    return null;
  }

  private @Nullable CourseRequest request(String caseName) {
    return courses.get(caseName);
  }

  private static @Nullable VisitRequest visit(@Nullable CourseRequest course, int number) {
    if (course != null) {
      for (VisitRequest one : course.visits()) {
        if (one.number() == number) {
          return one;
        }
      }
    }
    return null;
  }

  private void names(Booking booking) {
    if (clinician(booking.clinician()) == null) {
      find(
          DiaryRule.KNOWN,
          booking,
          "nobody here is called " + booking.clinician(),
          "who " + booking.clinician(),
          1);
    }
    if (chair(booking.chair()) == null) {
      find(
          DiaryRule.KNOWN,
          booking,
          "no chair here is called " + booking.chair(),
          "where " + booking.chair(),
          1);
    }
    for (String name : booking.sets()) {
      if (owned(name) < 0) {
        find(DiaryRule.KNOWN, booking, "no set in the stock is called " + name, "set " + name, 1);
      }
    }
    if (visit(request(booking.caseName()), booking.visit()) == null) {
      find(
          DiaryRule.KNOWN,
          booking,
          "no course asks for visit " + booking.visit() + " of " + booking.caseName(),
          "visit",
          1);
    }
  }

  private void asAsked(Booking booking) {
    Clinician clinician = clinician(booking.clinician());
    VisitRequest visit = visit(request(booking.caseName()), booking.visit());
    List<Capability> needs = new ArrayList<>(booking.needs());
    if (visit != null) {
      if (booking.minutes() < visit.minutes()) {
        find(
            DiaryRule.AS_ASKED,
            booking,
            "has " + booking.minutes() + " minutes and needs " + visit.minutes(),
            "minutes",
            visit.minutes() - booking.minutes());
      }
      for (Capability need : visit.needs()) {
        if (!booking.needs().contains(need)) {
          find(
              DiaryRule.AS_ASKED,
              booking,
              "its visit needs \"" + need.word() + "\" too",
              need.word(),
              1);
          needs.add(need);
        }
      }
      for (String set : new TreeSet<>(visit.sets())) {
        if (Collections.frequency(booking.sets(), set) < Collections.frequency(visit.sets(), set)) {
          find(
              DiaryRule.AS_ASKED,
              booking,
              "its visit needs the set " + set + " too",
              "set " + set,
              Collections.frequency(visit.sets(), set)
                  - Collections.frequency(booking.sets(), set));
        }
      }
    }
    if (clinician != null) {
      List<NeedleTime> needles = visit == null ? List.of() : visit.needles();
      boolean aided = !needles.isEmpty() && !booking.injectors().isEmpty();
      for (Capability need : needs) {
        if (clinician.may().contains(need)) {
          continue;
        }
        if (need == Capability.INJECT && aided) {
          needles(booking, needles);
        } else {
          find(
              DiaryRule.CAPABILITY,
              booking,
              "needs someone who may " + need.word() + "; " + clinician.name() + " may not",
              need.word(),
              1);
        }
      }
    }
  }

  /** Each minute of the needles has someone who comes to inject. */
  private void needles(Booking booking, List<NeedleTime> needles) {
    for (NeedleTime needle : needles) {
      int without = 0;
      for (int minute = needle.from(); minute < needle.to(); minute++) {
        boolean there = false;
        for (InjectorCall call : booking.injectors()) {
          there |= call.from() <= minute && minute < call.to();
        }
        without += there ? 0 : 1;
      }
      if (without > 0) {
        find(
            DiaryRule.INJECTOR,
            booking,
            "nobody comes to inject for "
                + without
                + " of the minutes from "
                + when(after(booking.start(), needle.from()))
                + " to "
                + when(after(booking.start(), needle.to())),
            "needles " + needle.from(),
            without);
      }
    }
  }

  /** Who comes to inject comes within the visit, is known, may do it, and is at work. */
  private void injectors(Booking booking) {
    Map<String, List<LocalDateTime>> walls = new LinkedHashMap<>();
    for (InjectorCall call : booking.injectors()) {
      if (call.to() > booking.minutes()) {
        find(
            DiaryRule.INJECTOR,
            booking,
            "someone is to inject until "
                + when(after(booking.start(), call.to()))
                + ", when the visit is over",
            "call " + call.from() + " " + call.clinician(),
            call.to() - Math.max(call.from(), booking.minutes()));
      }
      List<LocalDateTime> theirs =
          walls.computeIfAbsent(call.clinician(), none -> new ArrayList<>());
      for (int minute = call.from(); minute < call.to(); minute++) {
        theirs.add(wall(after(booking.start(), minute)));
      }
    }
    for (Map.Entry<String, List<LocalDateTime>> entry : walls.entrySet()) {
      String id = entry.getKey();
      Clinician who = clinician(id);
      if (who == null) {
        find(DiaryRule.KNOWN, booking, "nobody here is called " + id, "injector " + id, 1);
        continue;
      }
      if (!who.may().contains(Capability.INJECT)) {
        find(
            DiaryRule.INJECTOR,
            booking,
            who.name() + " comes to inject and may not",
            "injector " + id,
            entry.getValue().size());
      }
      if (id.equals(booking.clinician())) {
        continue;
      }
      atWork(booking, who, entry.getValue());
    }
  }

  // ---- minute by minute

  private void atWork(Booking booking, Clinician clinician, List<LocalDateTime> walls) {
    firstMinute(
        booking,
        walls,
        DiaryRule.HOURS,
        wall -> !works(clinician, wall),
        clinician.name() + " does not work at ",
        clinician.id());
    firstMinute(
        booking,
        walls,
        DiaryRule.AWAY,
        wall -> any(clinician.off(), wall),
        clinician.name() + " is away at ",
        clinician.id());
  }

  private void minutes(Booking booking) {
    Clinician clinician = clinician(booking.clinician());
    Chair chair = chair(booking.chair());
    CourseRequest course = request(booking.caseName());
    List<LocalDateTime> walls = new ArrayList<>();
    for (int minute = 0; minute < booking.minutes(); minute++) {
      walls.add(wall(after(booking.start(), minute)));
    }
    if (clinician != null) {
      atWork(booking, clinician, walls);
    }
    if (chair != null) {
      firstMinute(
          booking,
          walls,
          DiaryRule.AWAY,
          wall -> any(chair.off(), wall),
          chair.name() + " is out of use at ",
          "chair " + booking.chair());
    }
    firstMinute(
        booking,
        walls,
        DiaryRule.CLOSED,
        wall -> any(diary.closed(), wall),
        "the practice is closed at ",
        "");
    if (course != null) {
      firstMinute(
          booking,
          walls,
          DiaryRule.PATIENT,
          wall -> !suits(course.availability(), wall),
          "the patient cannot come at ",
          "");
      for (Interval busy : course.availability().busy()) {
        if (meet(booking.start(), end(booking), busy.start(), busy.end())) {
          find(
              DiaryRule.PATIENT,
              booking,
              "the patient is busy from " + when(busy.start()) + " to " + when(busy.end()),
              busy.start().toString(),
              shared(booking, busy.start(), busy.end()));
        }
      }
    }
  }

  /** Finds the first minute of a booking that is wrong, if any, and how many are. */
  private void firstMinute(
      Booking booking,
      List<LocalDateTime> walls,
      DiaryRule rule,
      Predicate<LocalDateTime> wrong,
      String message,
      String against) {
    LocalDateTime first = null;
    int minutes = 0;
    for (LocalDateTime wall : walls) {
      if (wrong.test(wall)) {
        first = first == null ? wall : first;
        minutes++;
      }
    }
    if (first != null) {
      find(rule, booking, message + first.format(WHEN), against, minutes);
    }
  }

  private static boolean works(Clinician clinician, LocalDateTime wall) {
    for (ExtraHours extra : clinician.extra()) {
      if (extra.date().equals(wall.toLocalDate())
          && within(extra.from(), extra.to(), wall.toLocalTime())) {
        return true;
      }
    }
    return week(clinician.hours(), wall);
  }

  private static boolean week(List<WeeklyHours> week, LocalDateTime wall) {
    for (WeeklyHours hours : week) {
      if (hours.days().contains(wall.getDayOfWeek())
          && holds(hours, wall.toLocalDate())
          && within(hours.from(), hours.to(), wall.toLocalTime())) {
        boolean pause = false;
        for (WeeklyHours.Break one : hours.breaks()) {
          pause |= within(one.from(), one.to(), wall.toLocalTime());
        }
        if (!pause) {
          return true;
        }
      }
    }
    return false;
  }

  private static boolean holds(WeeklyHours hours, LocalDate day) {
    LocalDate first = hours.first();
    LocalDate last = hours.last();
    return (first == null || day.compareTo(first) >= 0)
        && (last == null || day.compareTo(last) <= 0);
  }

  private static boolean suits(Availability availability, LocalDateTime wall) {
    return (availability.weekly().isEmpty() || week(availability.weekly(), wall))
        && !any(availability.off(), wall);
  }

  private static boolean any(List<TimeOff> times, LocalDateTime wall) {
    LocalDate day = wall.toLocalDate();
    for (TimeOff off : times) {
      LocalTime from = off.from();
      LocalTime to = off.to();
      if (day.compareTo(off.first()) >= 0
          && day.compareTo(off.last()) <= 0
          && (from == null || to == null || within(from, to, wall.toLocalTime()))) {
        return true;
      }
    }
    return false;
  }

  private static boolean within(LocalTime from, LocalTime to, LocalTime time) {
    int end = to.toSecondOfDay() == 0 ? 24 * 3600 : to.toSecondOfDay();
    return from.toSecondOfDay() <= time.toSecondOfDay() && time.toSecondOfDay() < end;
  }

  // ---- beside other bookings

  private void others(Booking booking, Beside beside) {
    for (Booking other : beside.bookings()) {
      if (other.id().equals(booking.id())) {
        continue;
      }
      boolean once = history(other) || booking.id().compareTo(other.id()) < 0;
      if (once && other.caseName().equals(booking.caseName()) && other.visit() == booking.visit()) {
        find(
            DiaryRule.BOOKED_ONCE,
            booking,
            "visit " + booking.visit() + " is booked a second time as " + other.id(),
            other.id(),
            1);
      }
      if (!once || !meet(booking.start(), end(booking), other.start(), end(other))) {
        continue;
      }
      String twice = null;
      long minutes = 0;
      for (Presence one : present(booking)) {
        for (Presence theirs : present(other)) {
          if (one.clinician().equals(theirs.clinician())
              && meet(one.start(), one.end(), theirs.start(), theirs.end())) {
            twice = twice == null ? one.clinician() : twice;
            minutes += shared(one.start(), one.end(), theirs.start(), theirs.end());
          }
        }
      }
      if (twice != null) {
        find(DiaryRule.CLINICIAN_ONCE, booking, twice + meanwhile(other), other.id(), minutes);
      }
      if (other.chair().equals(booking.chair())) {
        find(
            DiaryRule.CHAIR_ONCE,
            booking,
            booking.chair() + meanwhile(other),
            other.id(),
            shared(booking, other.start(), end(other)));
      }
    }
    for (BusyTime busy : beside.busy()) {
      if (!meet(booking.start(), end(booking), busy.time().start(), busy.time().end())) {
        continue;
      }
      boolean all = busy.clinician() == null && busy.chair() == null;
      String who = null;
      long minutes = 0;
      for (Presence one : present(booking)) {
        if ((all ? who == null : one.clinician().equals(busy.clinician()))
            && meet(one.start(), one.end(), busy.time().start(), busy.time().end())) {
          who = who == null ? one.clinician() : who;
          minutes += shared(one.start(), one.end(), busy.time().start(), busy.time().end());
        }
      }
      if (who == null && !booking.chair().equals(busy.chair())) {
        continue;
      }
      String against =
          busy.time().start() + " " + busy.clinician() + " " + busy.chair() + " " + busy.calendar();
      String span = " is busy from " + when(busy.time().start()) + " to " + when(busy.time().end());
      if (who != null) {
        find(DiaryRule.CLINICIAN_ONCE, booking, who + span, against, minutes);
      }
      if (all || booking.chair().equals(busy.chair())) {
        find(
            DiaryRule.CHAIR_ONCE,
            booking,
            booking.chair() + span,
            against,
            shared(booking, busy.time().start(), busy.time().end()));
      }
    }
  }

  /** That someone is with a patient. */
  private record Presence(String clinician, Instant start, Instant end) {}

  /** Who is with the patient of a booking: its clinician throughout, others while they inject. */
  private static List<Presence> present(Booking booking) {
    List<Presence> present = new ArrayList<>();
    present.add(new Presence(booking.clinician(), booking.start(), end(booking)));
    for (InjectorCall call : booking.injectors()) {
      present.add(
          new Presence(
              call.clinician(),
              after(booking.start(), call.from()),
              after(booking.start(), call.to())));
    }
    return present;
  }

  private String meanwhile(Booking other) {
    return " is booked from "
        + when(other.start())
        + " to "
        + when(end(other))
        + " as "
        + other.id();
  }

  private void course(Booking booking, List<Booking> standing) {
    CourseRequest course = request(booking.caseName());
    VisitRequest visit = visit(course, booking.visit());
    if (course == null || visit == null) {
      return;
    }
    LocalDate day = wall(booking.start()).toLocalDate();
    if (day.compareTo(course.earliest()) < 0) {
      find(
          DiaryRule.ORDER,
          booking,
          "comes before the earliest day, " + course.earliest().format(DAY),
          "earliest",
          course.earliest().toEpochDay() - day.toEpochDay());
    }
    if (course.provisional() && booking.status() == BookingStatus.PROMISED) {
      find(
          DiaryRule.PROVISIONAL,
          booking,
          "is promised, though the plan is provisional: such a visit is only held",
          "",
          1);
    }
    for (CourseRequest.Deadline deadline : course.deadlines()) {
      for (Booking begins : standing) {
        if (deadline.to() == booking.visit()
            && begins.caseName().equals(booking.caseName())
            && begins.visit() == deadline.from()) {
          long later = day.toEpochDay() - wall(begins.start()).toLocalDate().toEpochDay();
          if (later > deadline.days()) {
            find(
                DiaryRule.FINISH_WITHIN,
                booking,
                later
                    + " days after visit "
                    + begins.visit()
                    + ", of which it ends what was begun; allowed: "
                    + deadline.days(),
                "visit " + begins.visit(),
                later - deadline.days());
          }
        }
      }
    }
    int at = course.visits().indexOf(visit);
    if (at == 0) {
      return;
    }
    int before = course.visits().get(at - 1).number();
    Booking earlier = null;
    for (Booking other : standing) {
      if (other.caseName().equals(booking.caseName()) && other.visit() == before) {
        earlier = other;
      }
    }
    if (earlier == null) {
      find(
          DiaryRule.ORDER,
          booking,
          "visit " + before + " goes before it and is not booked",
          "visit " + before,
          1);
      return;
    }
    if (end(earlier).compareTo(booking.start()) > 0) {
      find(
          DiaryRule.ORDER,
          booking,
          "starts before visit " + before + " ends, " + when(end(earlier)),
          "visit " + before,
          (end(earlier).getEpochSecond() - booking.start().getEpochSecond()) / 60);
    }
    long days = day.toEpochDay() - wall(earlier.start()).toLocalDate().toEpochDay();
    // A clinician may have allowed more days than the plan, though not over an alert's own longest.
    long most = visit.gapMaxDays();
    if (course.longerGaps() != null) {
      long allowed = most + course.longerGaps().days();
      Integer alert = course.longestGapDays();
      most = Math.max(most, alert == null ? allowed : Math.min(alert, allowed));
    }
    if (days < visit.gapMinDays() || days > most) {
      find(
          DiaryRule.GAP,
          booking,
          days + " days after visit " + before + "; allowed: " + visit.gapMinDays() + " to " + most,
          "visit " + before,
          Math.max(visit.gapMinDays() - days, days - most));
    }
  }

  // ---- sterile sets

  private int owned(String name) {
    for (SterileStock.SterileSet set : diary.stock().sets()) {
      if (set.name().equals(name)) {
        return set.count();
      }
    }
    return -1;
  }

  /**
   * At no moment may more sets be out than there are. Use rises only where something starts, so it
   * is counted where the visit starts, and where something that is not judged itself starts while
   * the visit's sets are out.
   */
  private void sets(Booking booking, Beside beside) {
    for (SterileStock.SterileSet set : diary.stock().sets()) {
      if (!booking.sets().contains(set.name())) {
        continue;
      }
      List<Instant> moments = new ArrayList<>(List.of(booking.start()));
      for (Booking other : beside.bookings()) {
        if (history(other) && other.sets().contains(set.name())) {
          moments.add(other.start());
        }
      }
      for (BusyTime busy : beside.busy()) {
        if (busy.sets().contains(set.name())) {
          moments.add(busy.time().start());
        }
      }
      for (Instant moment : moments) {
        if (!out(booking.start(), end(booking), moment)) {
          continue;
        }
        int out = out(set.name(), moment, beside);
        if (out > set.count()) {
          find(
              DiaryRule.SETS,
              booking,
              "at "
                  + when(moment)
                  + " "
                  + out
                  + " of the set "
                  + set.name()
                  + " are in use or being reprocessed; there are "
                  + set.count(),
              "set " + set.name(),
              out - set.count());
          break;
        }
      }
    }
  }

  private int out(String set, Instant moment, Beside beside) {
    int out = 0;
    for (Booking other : beside.bookings()) {
      if (out(other.start(), end(other), moment)) {
        out += times(other.sets(), set);
      }
    }
    for (BusyTime busy : beside.busy()) {
      if (out(busy.time().start(), busy.time().end(), moment)) {
        out += times(busy.sets(), set);
      }
    }
    return out;
  }

  private boolean out(Instant start, Instant end, Instant at) {
    return start.compareTo(at) <= 0 && at.compareTo(back(end)) < 0;
  }

  /** When what was used until then can be used again. */
  private Instant back(Instant end) {
    return after(end, diary.stock().reprocessingMinutes());
  }

  private static int times(List<String> sets, String name) {
    int count = 0;
    for (String set : sets) {
      count += set.equals(name) ? 1 : 0;
    }
    return count;
  }
}
