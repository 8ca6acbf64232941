package quadrille.cli.render.page;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Contact;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;

/**
 * What the patient takes home, in plain words. Nothing of the chart and no alert stands on it.
 *
 * @param language its words
 * @param practice the practice's name, or empty where its file gives none
 * @param sentences how often, how far apart, and why
 * @param before what to do before a visit, and while numb
 * @param after what to do at home
 * @param phone the practice's, or empty where its file gives none
 * @param contact how else to reach the practice, as far as its file says
 */
public record PatientPage(
    Language language,
    String practice,
    String caseName,
    List<String> sentences,
    List<Row> visits,
    List<Section> before,
    List<Section> after,
    Section call,
    String phone,
    List<Line> contact) {

  /** So many visits leave room for large type. */
  private static final int MANY = 3;

  /**
   * A visit.
   *
   * @param date when it is; empty where the patient is to write it down
   * @param where what is cleaned
   * @param numbRight whether the patient's right side is numb
   * @param numbLeft whether the patient's left side is numb
   */
  public record Row(
      int visit,
      String date,
      String minutes,
      String where,
      String numb,
      boolean numbRight,
      boolean numbLeft) {}

  /** A heading and what it says. */
  public record Section(String title, List<String> lines) {}

  /** A labelled line. */
  public record Line(String label, String text) {}

  /**
   * @param booked what is promised, by the number of the visit
   */
  static PatientPage of(
      Course course, Practice practice, Map<Integer, Event.Appointment> booked, Language language) {
    return new PatientPage(
        language,
        ownName(practice),
        course.caseName(),
        sentences(course, booked, language),
        course.visits().stream()
            .map(visit -> row(visit, booked.get(visit.number()), language))
            .toList(),
        before(course, language),
        List.of(section(language, "after")),
        section(language, "call"),
        practice.contact().phone() == null ? "" : practice.contact().phone(),
        contact(practice.contact(), language));
  }

  /** What is to come of a course under way, with the days that have been promised. */
  static PatientPage of(CourseLog log, Language language) {
    CourseState state = CourseState.of(log);
    Course left = state.course().withVisits(state.toCome());
    Practice practice = log.practice();
    return new PatientPage(
        language,
        ownName(practice),
        left.caseName(),
        sentences(state, language),
        state.toCome().stream()
            .map(visit -> row(visit, state.booked().get(visit.number()), language))
            .toList(),
        left.visits().isEmpty() ? List.of() : before(left, language),
        List.of(section(language, "after")),
        section(language, "call"),
        practice.contact().phone() == null ? "" : practice.contact().phone(),
        contact(practice.contact(), language));
  }

  private static Row row(Visit visit, Event.@Nullable Appointment promised, Language language) {
    return new Row(
        visit.number(),
        promised == null
            ? ""
            : language.text(
                "day-time", day(promised.start().toLocalDate(), "date", language), time(promised)),
        language.text("minutes", promised == null ? visit.bookedMinutes() : promised.minutes()),
        where(visit, language),
        language.text("numb." + numbKey(visit)),
        numb(visit, NumbSide.RIGHT),
        numb(visit, NumbSide.LEFT));
  }

  private static boolean numb(Visit visit, NumbSide side) {
    return visit.numbSide() == side || visit.numbSide() == NumbSide.BOTH;
  }

  private static String day(LocalDate day, String pattern, Language language) {
    return DateTimeFormatter.ofPattern(
            language.text(pattern), Locale.forLanguageTag(language.code()))
        .format(day);
  }

  private static String time(Event.Appointment promised) {
    return DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).format(promised.start());
  }

  /** The quadrants of a visit as people call them. */
  private static String where(Visit visit, Language language) {
    SortedSet<Quadrant> quadrants = new TreeSet<>();
    visit.areas().forEach(area -> quadrants.add(area.quadrant()));
    return quadrants.size() == Quadrant.values().length
        ? language.text("where.all")
        : quadrants.stream()
            .map(quadrant -> language.text("where." + quadrant))
            .collect(Collectors.joining(", "));
  }

  private static List<String> sentences(CourseState state, Language language) {
    int done = state.recorded().size();
    int left = state.toCome().size();
    if (done == 0) {
      return sentences(state.course(), state.booked(), language);
    }
    List<String> sentences = new ArrayList<>();
    sentences.add(language.text("done", done, left));
    if (left > 1) {
      sentences.add(gap(state.course(), language));
    }
    sentences.add(recheck(state.course(), lastDay(state), language));
    return List.copyOf(sentences);
  }

  /** The day of the last visit, where it took place or is promised. */
  private static @Nullable LocalDate lastDay(CourseState state) {
    List<Visit> left = state.toCome();
    return left.isEmpty() ? state.lastDay() : day(left, state.booked());
  }

  private static @Nullable LocalDate day(
      List<Visit> visits, Map<Integer, Event.Appointment> booked) {
    Event.@Nullable Appointment last =
        visits.isEmpty() ? null : booked.get(visits.get(visits.size() - 1).number());
    return last == null ? null : last.start().toLocalDate();
  }

  private static String recheck(Course course, @Nullable LocalDate last, Language language) {
    if (course.chartsFirst()) {
      return language.text("recheck-chart");
    }
    if (!course.leadsToReevaluation()) {
      return language.text("recheck-later");
    }
    int from = course.reevaluateFromWeeks();
    int to = course.reevaluateToWeeks();
    if (last == null) {
      return from == to ? language.text("recheck-one", from) : language.text("recheck", from, to);
    }
    String first = day(last.plusWeeks(from), "date-short", language);
    return from == to
        ? language.text("recheck-day", first)
        : language.text("recheck-days", first, day(last.plusWeeks(to), "date-short", language));
  }

  /** The default practice's name is nobody's, and is not printed. */
  private static String ownName(Practice practice) {
    return practice.name().startsWith(PracticeReader.defaults().name()) ? "" : practice.name();
  }

  /** The style class of its type's size: more visits leave less room for the advice. */
  public String type() {
    return visits.size() <= MANY ? "few-visits" : "many-visits";
  }

  /** Whether any visit numbs a side, which is drawn. */
  public boolean pictured() {
    return visits.stream().anyMatch(visit -> visit.numbRight() || visit.numbLeft());
  }

  /** A word of the page. */
  public String text(String key) {
    return language.text(key);
  }

  private static List<String> sentences(
      Course course, Map<Integer, Event.Appointment> booked, Language language) {
    int visits = course.visits().size();
    if (visits == 0) {
      return List.of(language.text("nothing"));
    }
    List<String> sentences = new ArrayList<>();
    sentences.add(language.text("what", visits));
    sentences.add(language.text("why"));
    if (oneSideAtATime(course)) {
      sentences.add(language.text("why-side"));
    }
    if (visits > 1) {
      sentences.add(gap(course, language));
    }
    sentences.add(recheck(course, day(course.visits(), booked), language));
    return List.copyOf(sentences);
  }

  /** Whether visits numb one side each, and together both. */
  private static boolean oneSideAtATime(Course course) {
    return course.visits().stream().noneMatch(visit -> visit.numbSide() == NumbSide.BOTH)
        && course.visits().stream().anyMatch(visit -> visit.numbSide() == NumbSide.RIGHT)
        && course.visits().stream().anyMatch(visit -> visit.numbSide() == NumbSide.LEFT);
  }

  static String gap(Course course, Language language) {
    int least = course.gapMinDays();
    int most = course.gapMaxDays();
    if (least == 0) {
      return language.text("same-day");
    }
    return least == most ? language.text("gap", least) : language.text("gap-range", least, most);
  }

  /** The last part of the key that says what a visit numbs. */
  static String numbKey(Visit visit) {
    return visit.gelCartridges() > 0 && !visit.injections().isEmpty()
        ? afterwardsKey(visit) + "-gel"
        : afterwardsKey(visit);
  }

  /** The last part of the key that says what is felt after a visit: gel has worn off by then. */
  static String afterwardsKey(Visit visit) {
    if (visit.numbSide() == NumbSide.NONE) {
      return visit.injections().isEmpty() ? visit.gelCartridges() > 0 ? "gel" : "none" : "front";
    }
    return visit.numbSide().word() + (visit.numbFront().isEmpty() ? "" : "-front");
  }

  private static List<Section> before(Course course, Language language) {
    List<Section> sections = new ArrayList<>();
    sections.add(section(language, "before"));
    if (course.visits().stream().anyMatch(visit -> !visit.injections().isEmpty())) {
      sections.add(section(language, "numb"));
    } else if (course.visits().stream().anyMatch(visit -> visit.gelCartridges() > 0)) {
      sections.add(section(language, "gel"));
    }
    return List.copyOf(sections);
  }

  private static Section section(Language language, String key) {
    return new Section(language.text(key + ".title"), language.list(key));
  }

  private static List<Line> contact(Contact contact, Language language) {
    List<Line> lines = new ArrayList<>();
    add(lines, language, "contact.address", contact.address());
    add(lines, language, "contact.email", contact.email());
    add(lines, language, "contact.hours", contact.hours());
    add(lines, language, "contact.outOfHours", contact.outOfHours());
    return List.copyOf(lines);
  }

  private static void add(List<Line> lines, Language language, String key, @Nullable String text) {
    if (text != null) {
      lines.add(new Line(language.text(key), text));
    }
  }
}
