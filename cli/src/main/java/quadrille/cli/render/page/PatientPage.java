package quadrille.cli.render.page;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
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
 * @param sentences how often, and how far apart
 * @param sections what to do before, while numb, at home
 * @param contact how to reach the practice, as far as its file says
 */
public record PatientPage(
    Language language,
    String practice,
    String caseName,
    List<String> sentences,
    List<Row> visits,
    List<Section> sections,
    Section call,
    List<Line> contact) {

  /**
   * A visit.
   *
   * @param date when it is; empty where the patient is to write it down
   */
  public record Row(int visit, String minutes, String numb, String date) {}

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
        sentences(course, language),
        course.visits().stream()
            .map(visit -> row(visit, booked.get(visit.number()), language))
            .toList(),
        sections(course, language),
        section(language, "call"),
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
        left.visits().isEmpty() ? List.of(section(language, "after")) : sections(left, language),
        section(language, "call"),
        contact(practice.contact(), language));
  }

  private static Row row(Visit visit, Event.@Nullable Appointment promised, Language language) {
    return new Row(
        visit.number(),
        language.text("minutes", promised == null ? visit.bookedMinutes() : promised.minutes()),
        language.text("numb." + numbKey(visit)),
        promised == null
            ? ""
            : DateTimeFormatter.ofPattern(
                    language.text("date"), Locale.forLanguageTag(language.code()))
                .format(promised.start()));
  }

  private static List<String> sentences(CourseState state, Language language) {
    int done = state.recorded().size();
    int left = state.toCome().size();
    if (done == 0) {
      return sentences(state.course(), language);
    }
    List<String> sentences = new ArrayList<>();
    sentences.add(language.text("done", done, left));
    if (left > 1) {
      sentences.add(gap(state.course(), language));
    }
    sentences.add(recheck(state.course(), language));
    return List.copyOf(sentences);
  }

  private static String recheck(Course course, Language language) {
    int from = course.reevaluateFromWeeks();
    int to = course.reevaluateToWeeks();
    return from == to ? language.text("recheck-one", from) : language.text("recheck", from, to);
  }

  /** The default practice's name is nobody's, and is not printed. */
  private static String ownName(Practice practice) {
    return practice.name().startsWith(PracticeReader.defaults().name()) ? "" : practice.name();
  }

  /** A word of the page. */
  public String text(String key) {
    return language.text(key);
  }

  private static List<String> sentences(Course course, Language language) {
    int visits = course.visits().size();
    if (visits == 0) {
      return List.of(language.text("nothing"));
    }
    List<String> sentences = new ArrayList<>();
    sentences.add(language.text("what", visits));
    if (visits > 1) {
      sentences.add(gap(course, language));
    }
    sentences.add(recheck(course, language));
    return List.copyOf(sentences);
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

  private static List<Section> sections(Course course, Language language) {
    List<Section> sections = new ArrayList<>();
    sections.add(section(language, "before"));
    if (course.visits().stream().anyMatch(visit -> !visit.injections().isEmpty())) {
      sections.add(section(language, "numb"));
    } else if (course.visits().stream().anyMatch(visit -> visit.gelCartridges() > 0)) {
      sections.add(section(language, "gel"));
    }
    sections.add(section(language, "after"));
    return List.copyOf(sections);
  }

  private static Section section(Language language, String key) {
    return new Section(language.text(key + ".title"), language.list(key));
  }

  private static List<Line> contact(Contact contact, Language language) {
    List<Line> lines = new ArrayList<>();
    add(lines, language, "contact.address", contact.address());
    add(lines, language, "contact.phone", contact.phone());
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
