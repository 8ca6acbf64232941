package quadrille.diary.book;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;
import quadrille.document.JsonLayout;
import quadrille.plan.course.StopQuestions;

/**
 * Writes a diary as the text of a diary file (JSON, docs/diary.schema.json). The same diary gives
 * the same text, byte for byte; what holds by default and what is empty is left out. Busy times of
 * linked calendars are not written: their files keep them.
 */
public final class DiaryWriter {

  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssxxx", Locale.ROOT);
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final ZoneId zone;

  private DiaryWriter(ZoneId zone) {
    this.zone = zone;
  }

  /** The text of a diary, with a line end after the last line. */
  public static String write(Diary diary) {
    return new DiaryWriter(diary.zone()).text(diary, true);
  }

  /**
   * The same without the journal and the key of exports: what an undone change gives back to the
   * byte.
   */
  public static String writeWithoutJournal(Diary diary) {
    return new DiaryWriter(diary.zone()).text(diary, false);
  }

  /** A moment as files have it: ISO 8601 with the zone's offset. */
  public static String moment(Instant moment, ZoneId zone) {
    return moment.atZone(zone).format(MOMENT);
  }

  private String text(Diary diary, boolean withJournal) {
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", Diary.SCHEMA);
    root.put("zone", zone.getId());
    root.put("startEveryMinutes", diary.startEveryMinutes());
    Integer margin = diary.injectorMargin();
    if (margin != null) {
      root.put("injectorMarginMinutes", margin);
    }
    root.put("clinicians", diary.clinicians().stream().map(this::clinician).toList());
    root.put("chairs", diary.chairs().stream().map(this::chair).toList());
    some(root, "closed", diary.closed().stream().map(this::off).toList());
    root.put("stock", stock(diary.stock()));
    some(root, "courses", diary.courses().stream().map(this::course).toList());
    some(root, "bookings", diary.bookings().stream().map(this::booking).toList());
    some(
        root,
        "busy",
        diary.busy().stream().filter(busy -> busy.calendar() == null).map(this::busy).toList());
    some(root, "calendars", diary.calendars().stream().map(this::calendar).toList());
    if (withJournal) {
      some(root, "exportKey", diary.exportKey());
      some(root, "journal", diary.journal().stream().map(this::entry).toList());
    }
    return JsonLayout.text(root);
  }

  private static void some(Map<String, Object> fields, String key, List<?> list) {
    if (!list.isEmpty()) {
      fields.put(key, list);
    }
  }

  private static void some(Map<String, Object> fields, String key, @Nullable String text) {
    if (text != null) {
      fields.put(key, text);
    }
  }

  private Map<String, Object> clinician(Clinician clinician) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("id", clinician.id());
    fields.put("name", clinician.name());
    some(fields, "may", clinician.may().stream().map(Capability::word).toList());
    some(fields, "hours", clinician.hours().stream().map(this::weekly).toList());
    some(fields, "extra", clinician.extra().stream().map(this::extra).toList());
    some(fields, "off", clinician.off().stream().map(this::off).toList());
    return fields;
  }

  private Map<String, Object> chair(Chair chair) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("id", chair.id());
    fields.put("name", chair.name());
    some(fields, "off", chair.off().stream().map(this::off).toList());
    return fields;
  }

  private Map<String, Object> weekly(WeeklyHours hours) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("days", hours.days().stream().map(HoursReading::word).toList());
    fields.put("from", hours.from().format(TIME));
    fields.put("to", hours.to().format(TIME));
    some(
        fields,
        "breaks",
        hours.breaks().stream().map(pause -> span(pause.from(), pause.to())).toList());
    some(fields, "first", day(hours.first()));
    some(fields, "last", day(hours.last()));
    return fields;
  }

  private static @Nullable String day(@Nullable LocalDate day) {
    return day == null ? null : day.toString();
  }

  private Map<String, Object> span(LocalTime from, LocalTime to) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("from", from.format(TIME));
    fields.put("to", to.format(TIME));
    return fields;
  }

  private Map<String, Object> extra(ExtraHours extra) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("date", extra.date().toString());
    fields.putAll(span(extra.from(), extra.to()));
    return fields;
  }

  private Map<String, Object> off(TimeOff off) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("first", off.first().toString());
    if (!off.last().equals(off.first())) {
      fields.put("last", off.last().toString());
    }
    LocalTime from = off.from();
    LocalTime to = off.to();
    if (from != null && to != null) {
      fields.putAll(span(from, to));
    }
    some(fields, "because", off.because());
    return fields;
  }

  private Map<String, Object> stock(SterileStock stock) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("reprocessingMinutes", stock.reprocessingMinutes());
    fields.put(
        "sets",
        stock.sets().stream()
            .map(
                set -> {
                  Map<String, Object> one = new LinkedHashMap<>();
                  one.put("name", set.name());
                  one.put("count", set.count());
                  if (set.everyVisit()) {
                    one.put("everyVisit", true);
                  }
                  return one;
                })
            .toList());
    return fields;
  }

  private Map<String, Object> course(CourseRequest course) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("case", course.caseName());
    fields.put("asked", course.asked().toString());
    if (!course.earliest().equals(course.asked())) {
      fields.put("earliest", course.earliest().toString());
    }
    some(fields, "ended", day(course.ended()));
    if (course.provisional()) {
      fields.put("provisional", true);
    }
    fields.put(
        "visits",
        course.visits().stream()
            .map(visit -> visit(visit, visit.equals(course.visits().get(0))))
            .toList());
    some(fields, "finishWithin", course.deadlines().stream().map(DiaryWriter::deadline).toList());
    Map<String, Object> weeks = new LinkedHashMap<>();
    weeks.put("from", course.reevaluateFromWeeks());
    weeks.put("to", course.reevaluateToWeeks());
    fields.put("reevaluateWeeks", weeks);
    Availability availability = course.availability();
    if (!availability.any()) {
      Map<String, Object> available = new LinkedHashMap<>();
      some(available, "weekly", availability.weekly().stream().map(this::weekly).toList());
      some(available, "off", availability.off().stream().map(this::off).toList());
      some(available, "busy", availability.busy().stream().map(this::moments).toList());
      fields.put("available", available);
    }
    Preferences preferences = course.preferences();
    if (!preferences.equals(Preferences.NONE)) {
      Map<String, Object> prefers = new LinkedHashMap<>();
      some(prefers, "times", preferences.times().stream().map(this::weekly).toList());
      some(prefers, "clinician", preferences.clinician());
      fields.put("prefers", prefers);
    }
    if (course.longestGapDays() != null) {
      fields.put("longestGapDays", course.longestGapDays());
    }
    LongerGaps longer = course.longerGaps();
    if (longer != null) {
      Map<String, Object> gaps = new LinkedHashMap<>();
      gaps.put("days", longer.days());
      gaps.put("allowedBy", longer.allowedBy());
      fields.put("longerGaps", gaps);
    }
    return fields;
  }

  private static Map<String, Object> deadline(CourseRequest.Deadline deadline) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("from", deadline.from());
    fields.put("to", deadline.to());
    fields.put("days", deadline.days());
    return fields;
  }

  private Map<String, Object> visit(VisitRequest visit, boolean first) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visit", visit.number());
    fields.put("minutes", visit.minutes());
    some(fields, "needs", visit.needs().stream().map(Capability::word).toList());
    some(fields, "sets", visit.sets());
    if (!first) {
      Map<String, Object> gap = new LinkedHashMap<>();
      gap.put("min", visit.gapMinDays());
      gap.put("max", visit.gapMaxDays());
      fields.put("gapDays", gap);
    }
    some(
        fields,
        "stopQuestions",
        visit.stopQuestions().stream().map(StopQuestions::fields).toList());
    some(fields, "needles", visit.needles().stream().map(DiaryWriter::needles).toList());
    return fields;
  }

  private static Map<String, Object> needles(NeedleTime time) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("from", time.from());
    fields.put("to", time.to());
    return fields;
  }

  private Map<String, Object> call(InjectorCall call, Instant start) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("clinician", call.clinician());
    fields.put("from", moment(call.time(start).start(), zone));
    fields.put("to", moment(call.time(start).end(), zone));
    return fields;
  }

  private Map<String, Object> moments(Interval time) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("start", moment(time.start(), zone));
    fields.put("end", moment(time.end(), zone));
    return fields;
  }

  private Map<String, Object> booking(Booking booking) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("id", booking.id());
    fields.put("case", booking.caseName());
    fields.put("visit", booking.visit());
    fields.putAll(moments(booking.time()));
    fields.put("clinician", booking.clinician());
    fields.put("chair", booking.chair());
    some(fields, "sets", booking.sets());
    some(fields, "needs", booking.needs().stream().map(Capability::word).toList());
    some(
        fields,
        "injections",
        booking.injectors().stream().map(call -> call(call, booking.start())).toList());
    fields.put("status", booking.status().word());
    Instant until = booking.until();
    some(fields, "until", until == null ? null : moment(until, zone));
    if (booking.changes() > 0) {
      fields.put("changes", booking.changes());
    }
    return fields;
  }

  private Map<String, Object> entry(JournalEntry entry) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("number", entry.number());
    fields.put("at", moment(entry.at(), zone));
    fields.put("by", entry.by());
    fields.put("did", entry.did().word());
    Why because = entry.because();
    some(fields, "because", because == null ? null : because.word());
    some(fields, "note", entry.note());
    if (entry.undoes() != 0) {
      fields.put("undoes", entry.undoes());
    }
    some(fields, "bookings", entry.bookings().stream().map(this::bookingChange).toList());
    some(fields, "courses", entry.courses().stream().map(this::courseChange).toList());
    some(fields, "absences", entry.absences().stream().map(this::absence).toList());
    return fields;
  }

  private Map<String, Object> bookingChange(JournalEntry.BookingChange change) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Why because = change.because();
    some(fields, "because", because == null ? null : because.word());
    Booking from = change.from();
    Booking to = change.to();
    if (from != null) {
      fields.put("from", booking(from));
    }
    if (to != null) {
      fields.put("to", booking(to));
    }
    return fields;
  }

  private Map<String, Object> courseChange(JournalEntry.CourseChange change) {
    Map<String, Object> fields = new LinkedHashMap<>();
    CourseRequest from = change.from();
    CourseRequest to = change.to();
    if (from != null) {
      fields.put("from", course(from));
    }
    if (to != null) {
      fields.put("to", course(to));
    }
    return fields;
  }

  private Map<String, Object> absence(JournalEntry.Absence absence) {
    Map<String, Object> fields = new LinkedHashMap<>();
    some(fields, "clinician", absence.clinician());
    fields.put("off", off(absence.off()));
    if (absence.taken()) {
      fields.put("taken", true);
    }
    return fields;
  }

  private Map<String, Object> busy(BusyTime busy) {
    Map<String, Object> fields = new LinkedHashMap<>(moments(busy.time()));
    some(fields, "clinician", busy.clinician());
    some(fields, "chair", busy.chair());
    some(fields, "sets", busy.sets());
    return fields;
  }

  private Map<String, Object> calendar(CalendarLink link) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("file", link.file());
    some(fields, "clinician", link.clinician());
    some(fields, "chair", link.chair());
    return fields;
  }
}
