package quadrille.cli.render.page;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import quadrille.facts.practice.Contact;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;
import quadrille.plan.work.StepAspect;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Texts that a file may hold and that must arrive on a page as they are, and harm nothing. */
final class HostileText {

  static final List<String> ALL =
      List.of(
          // Markup, and what ends an attribute, a comment, a style or an entity.
          "<script>document.title='x'</script><img src=x onerror=\"document.title='y'\">"
              + "\"'`>--></style></svg><b>x</b> &amp; ${x} @raw {{x}} ]]>",
          // Right-to-left letters and an override that would turn the rest of the line round.
          "\u05d0\u05d1\u05d2 case \u202e1042\u202c \u0645\u0631\u064a\u0636",
          // As long as a field may be, without a place to break.
          "W".repeat(200),
          // Beyond the basic plane, combining marks, a text of signs.
          "\ud83e\uddb7 Zahn\u0308\u0308\u0308 \u200b\u00ad 'quoted' \"quoted\" %s {0} #{a}");

  private HostileText() {}

  /** All three pages of a course in which every free text is this one. */
  static String page(String text) throws Exception {
    return page(text, EnumSet.allOf(PageKind.class));
  }

  static String page(String text, Set<PageKind> pages) throws Exception {
    Sample sample = Sample.of("weight-missing");
    Practice practice = practice(sample.practice(), text);
    return PlanPages.of(sample.chart(), practice, course(text), pages, Language.english());
  }

  private static Practice practice(Practice defaults, String text) {
    return new Practice(
        text,
        new Contact(text, text, text, text, text),
        defaults.appointments(),
        defaults.inserts(),
        defaults.passes(),
        defaults.selection(),
        defaults.minutes(),
        defaults.frame(),
        defaults.numbing(),
        defaults.agents(),
        defaults.preferredAgents(),
        defaults.ruleSet(),
        defaults.epinephrineCapMg(),
        defaults.injections(),
        defaults.gel(),
        defaults.alerts(),
        defaults.weights(),
        defaults.codeHint());
  }

  /** A course under way in which every free text is this one. */
  static CourseLog log(String text) throws Exception {
    Sample sample = Sample.of("weight-missing");
    Course course = course(text);
    Course next =
        new Course(
            text,
            List.of(course.visits().get(0).withNumber(2)),
            7,
            14,
            6,
            12,
            course.cost(),
            List.of(),
            List.of(new Assumption.AsWritten(text)),
            List.of(new Caution.AsWritten(text)));
    Entry.Debride step = course.visits().get(0).steps().get(0);
    VisitDone done = done(text, step, text);
    OffsetDateTime at = OffsetDateTime.parse("2026-03-02T12:00:00+01:00");
    Event.Appointment booked =
        new Event.Appointment(2, LocalDateTime.parse("2026-03-12T09:30"), 60, text);
    return new CourseLog(
        List.of(
            new LogEntry(
                1,
                at,
                new Event.Planned(course, sample.chart(), practice(sample.practice(), text))),
            new LogEntry(2, at, done(text, step, "")),
            new LogEntry(3, at, new Corrected(2, done, text)),
            new LogEntry(
                4,
                at,
                new Event.Replanned(
                    next,
                    sample.chart(),
                    List.of(
                        new PlanChange(
                            1,
                            new PlanChange.What.AsWritten(text),
                            new PlanChange.Why.AsWritten(text))))),
            new LogEntry(5, at, new Event.Booked(List.of(booked)))),
        null);
  }

  private static VisitDone done(String text, Entry.Debride step, String note) {
    return new VisitDone(
        1,
        LocalDate.of(2026, 3, 3),
        text,
        List.of(new StepDone(step.area(), step.pass(), step.aspect(), step.teeth(), text, 0.5)),
        List.of(new Given(text, step.teeth().get(0).quadrant(), null, text, 1.5)),
        new TreeMap<>(),
        30.0,
        List.of(new PartMinutes(step.area(), step.pass(), 5)),
        30,
        false,
        List.of(new Observation.FailedInjection(text, step.teeth().get(0).quadrant(), null)),
        note);
  }

  private static Course course(String text) throws Exception {
    Course kept = Sample.of("weight-missing").course();
    Entry.Debride step = kept.visits().get(0).steps().get(0);
    Visit visit =
        new Visit(
            1,
            NumbSide.RIGHT,
            30,
            0.1,
            List.of(step.area()),
            List.of(new GivenInjection(text, step.teeth().get(0).quadrant(), null, text, 1.5)),
            List.of(new Dose(text, 30, 300, 0.1)),
            0.01,
            1,
            0,
            0,
            List.of(
                new Entry.SetUp(0, 600),
                new Entry.Inject(
                    600, 90, new InjectionRef(text, step.teeth().get(0).quadrant(), null)),
                new Entry.AsWritten(690, 60, Entry.Kind.WAIT, text),
                new Entry.AsWritten(750, 30, Entry.Kind.REPOSITION, text),
                new Entry.Debride(
                    780,
                    300,
                    step.area(),
                    StepAspect.FACIAL,
                    Pass.FINE,
                    text,
                    Power.LOW,
                    true,
                    step.teeth()),
                new Entry.Close(1080, 300)),
            List.of(text),
            List.of(new WatchSite.AsWritten(text)),
            List.of(new Caution.AsWritten(text)));
    return new Course(
        text,
        List.of(visit),
        7,
        14,
        6,
        12,
        kept.cost(),
        List.of(),
        List.of(new Assumption.AsWritten(text)),
        List.of(new Caution.AsWritten(text)));
  }
}
