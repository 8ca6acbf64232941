package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.InsertMarks;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Kit;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.Event;

/**
 * What the desk needs: what to book, what to lay out and sterilise, what to say on the phone.
 *
 * @param alerts the patient's, in words
 * @param gap when visits may follow each other
 * @param reevaluation when to book the re-evaluation
 * @param supplies what each visit takes, inserts first
 * @param sterilising what follows for sterilising
 * @param stops what a person answers at each visit before anything is touched
 * @param settle what a clinician has to settle before the desk books
 * @param codes the hint on codes; null where the practice did not switch it on
 */
public record DeskPage(
    Heading heading,
    String alerts,
    List<String> stops,
    List<Booking> bookings,
    int bookedMinutes,
    String gap,
    String reevaluation,
    List<Supply> supplies,
    String sterilising,
    List<String> settle,
    List<HeldWork> held,
    @Nullable QuadrantHint codes,
    List<String> call,
    String language) {

  /**
   * A visit to book.
   *
   * @param booked its appointment; empty where the desk is to write it down
   */
  public record Booking(
      int visit, int minutes, String when, String who, String numb, String booked) {}

  /**
   * Something that visits take.
   *
   * @param visits how much each visit takes; empty where none
   * @param ready how much is ready at the start of a day, where the practice file says so
   * @param insert whether it is an insert, one sterile set a visit
   */
  public record Supply(String name, List<String> visits, String ready, boolean insert) {}

  /**
   * @param booked what is promised, by the number of the visit
   */
  static DeskPage of(
      Course course,
      Chart chart,
      Practice practice,
      Map<Integer, Event.Appointment> booked,
      Language language) {
    return new DeskPage(
        Heading.of(course, chart, practice),
        VisitSheet.alerts(chart),
        MindWords.stopQuestions(course),
        course.visits().stream()
            .map(visit -> booking(visit, course, booked.get(visit.number())))
            .toList(),
        course.bookedMinutes(),
        course.visits().size() < 2 ? "" : BookingWords.gap(course),
        course.chartsFirst()
            ? "none yet: the rest is planned again from the new chart"
            : course.leadsToReevaluation()
                ? Words.reevaluation(course)
                : "none yet: work is held back and planned again first",
        supplies(course, practice),
        sterilising(course),
        settle(course, chart.numbering()),
        HeldWork.of(course, chart, practice),
        QuadrantHint.of(course, chart, practice),
        call(course, language),
        language.code());
  }

  private static Booking booking(
      Visit visit, Course course, Event.@Nullable Appointment appointment) {
    return new Booking(
        visit.number(),
        visit.bookedMinutes(),
        when(visit, course),
        who(visit),
        numb(visit),
        appointment == null
            ? ""
            : BookingWords.appointment(appointment)
                + (appointment.minutes() < visit.bookedMinutes() ? "; too short, book anew" : ""));
  }

  /** Cautions of the course, and the areas that each visit leaves with deposit. */
  private static List<String> settle(Course course, Numbering numbering) {
    List<String> settle = new ArrayList<>();
    if (course.provisional()) {
      settle.add("the plan is provisional: hold these times and promise none");
    }
    settle.addAll(MindWords.cautions(course.cautions(), numbering));
    settle.addAll(MindWords.leftOpen(course, numbering));
    return settle;
  }

  private static String when(Visit visit, Course course) {
    if (visit.number() == 1) {
      return "first";
    }
    String gap =
        course.gapMinDays() == 0
            ? "the same day as visit 1"
            : Words.range(course.gapMinDays(), course.gapMaxDays())
                + " days after visit "
                + (visit.number() - 1);
    return gap
        + course.finishWithin().stream()
            .filter(deadline -> deadline.to() == visit.number())
            .map(
                deadline ->
                    "; at most "
                        + Words.count(deadline.days(), "day")
                        + " after visit "
                        + deadline.from()
                        + ", whose areas it finishes")
            .collect(Collectors.joining());
  }

  /** Who may inject, and who may treat, is for local rules to say; the plan knows what is given. */
  private static String who(Visit visit) {
    if (!visit.injections().isEmpty()) {
      return "a clinician who may inject";
    }
    return visit.gelCartridges() > 0
        ? "a clinician who may treat and use pocket gel; no injection"
        : "a clinician who may treat; no injection";
  }

  private static String numb(Visit visit) {
    return Words.capital(VisitSheet.numb(visit));
  }

  private static List<Supply> supplies(Course course, Practice practice) {
    List<Supply> supplies = new ArrayList<>();
    for (InsertMarks.Mark mark : InsertMarks.of(course).all()) {
      Insert insert = practice.inserts().get(mark.insert());
      supplies.add(
          new Supply(
              mark.insert(),
              each(course, visit -> visit.tray().contains(mark.insert()) ? "1" : ""),
              insert == null ? "" : Integer.toString(insert.sterileSets()),
              true));
    }
    Map<String, Boolean> agents = new LinkedHashMap<>();
    for (Visit visit : course.visits()) {
      for (Dose dose : visit.doses()) {
        if (!dose.agent().equals(practice.gel().name())) {
          agents.put(dose.agent(), true);
        }
      }
    }
    for (String agent : agents.keySet()) {
      supplies.add(
          new Supply(
              "Cartridges of " + Words.agent(agent, practice),
              each(course, visit -> cartridges(visit, agent)),
              "",
              false));
    }
    addIfUsed(
        supplies,
        "Cartridges of " + practice.gel().name(),
        each(
            course,
            v ->
                v.gelCartridges() > 0 ? Integer.toString(Kit.of(List.of(v)).gelCartridges()) : ""));
    addIfUsed(
        supplies,
        "New implant sleeves",
        each(course, v -> v.sleeves() > 0 ? Integer.toString(v.sleeves()) : ""));
    return List.copyOf(supplies);
  }

  private static List<String> each(Course course, Function<Visit, String> amount) {
    return course.visits().stream().map(amount).toList();
  }

  private static void addIfUsed(List<Supply> supplies, String name, List<String> visits) {
    if (visits.stream().anyMatch(amount -> !amount.isEmpty())) {
      supplies.add(new Supply(name, visits, "", false));
    }
  }

  /**
   * A plan says how many cartridges a visit opens; with several agents it does not say of which.
   */
  private static String cartridges(Visit visit, String agent) {
    List<String> given = visit.injections().stream().map(one -> one.agent()).distinct().toList();
    if (!given.contains(agent)) {
      return "";
    }
    return given.size() == 1
        ? Integer.toString(visit.cartridges())
        : "of " + visit.cartridges() + " in all";
  }

  private static String sterilising(Course course) {
    if (course.visits().size() > 1 && course.gapMinDays() == 0) {
      return "All visits fall on one day: lay out a sterile set of an insert for each visit that"
          + " takes it, or sterilise between the visits.";
    }
    return "Each visit takes one sterile set of each insert marked 1; afterwards it goes to"
        + " sterilising. New sleeves are used once.";
  }

  private static List<String> call(Course course, Language language) {
    List<String> call = new ArrayList<>();
    if (course.visits().isEmpty()) {
      return List.of(language.text("nothing"));
    }
    if (course.provisional()) {
      call.add(language.text("desk.held"));
    }
    call.add(language.text("desk.visits", course.visits().size()));
    for (Visit visit : course.visits()) {
      call.add(
          language.text("desk.first", visit.number(), visit.bookedMinutes())
              + " "
              + language.text("desk.numb." + PatientPage.afterwardsKey(visit)));
    }
    if (course.visits().size() > 1) {
      call.add(PatientPage.gap(course, language));
    }
    call.addAll(language.list("before"));
    if (course.visits().stream().anyMatch(visit -> !visit.injections().isEmpty())) {
      call.add(language.text("numb.2"));
    }
    return List.copyOf(call);
  }
}
