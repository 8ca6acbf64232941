package quadrille.cli.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.Doubts;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.LogEntry;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;

/** Where a course stands, as JSON. */
public final class RecordJson {

  private RecordJson() {}

  /** Renders it. */
  public static String of(CourseLog log) {
    CourseProgress progress = CourseProgress.of(log);
    CourseState state = progress.state();
    ObjectNode root = Json.object();
    root.put("schema", "quadrille/course-state/1");
    root.put("case", state.course().caseName());
    Numbering numbering = log.numbering();
    root.put("numbering", numbering.word());
    if (log.torn() != null) {
      root.put("torn", RecordText.torn(log.torn())).put("tornEntry", log.torn());
    }
    root.put("shareDone", Json.round(progress.share(), 4));
    ArrayNode done = root.putArray("done");
    for (CourseProgress.OfVisit visit : progress.visits()) {
      if (visit.recorded() != null) {
        done(done.addObject(), visit.recorded(), visit, numbering);
      }
    }
    ArrayNode toCome = root.putArray("toCome");
    for (Visit visit : state.toCome()) {
      ObjectNode node = toCome.addObject();
      node.put("visit", visit.number());
      Json.stopQuestions(node, visit.stopQuestions());
      node.put("plannedMinutes", Json.round(visit.expectedSeconds() / 60.0, 2));
      node.put("bookedMinutes", visit.bookedMinutes());
      ArrayNode areas = node.putArray("areas");
      visit.areas().forEach(area -> areas.add(area.name(numbering)));
      progress.visits().stream()
          .filter(one -> one.number() == visit.number())
          .forEach(one -> work(node, one, numbering));
      Event.@Nullable Appointment booked = state.booked().get(visit.number());
      if (booked != null) {
        ObjectNode appointment = node.putObject("appointment");
        appointment.put("start", booked.start().toString());
        appointment.put("minutes", booked.minutes());
        if (booked.clinician() != null) {
          appointment.put("clinician", booked.clinician());
        }
      }
    }
    ArrayNode leftOver = root.putArray("leftOver");
    for (CourseProgress.LeftOver left : progress.leftOver()) {
      ObjectNode node = leftOver.addObject();
      node.put("visit", left.visit());
      node.put("area", left.area().name(numbering));
      node.put("pass", left.pass().word());
      ArrayNode teeth = node.putArray("teeth");
      left.teeth().forEach(tooth -> teeth.add(numbering.name(tooth)));
    }
    ArrayNode doubts = root.putArray("doubts");
    for (Doubt doubt : Doubts.of(log)) {
      doubts
          .addObject()
          .put("entry", doubt.entry())
          .put("visit", doubt.visit())
          .put("what", DoubtWords.of(doubt, numbering, log.practice()));
    }
    ArrayNode found = root.putArray("found");
    state
        .findings()
        .forEach(
            one ->
                found
                    .addObject()
                    .put("visit", one.visit())
                    .put("what", FindingWords.finding(one.finding(), numbering, log.practice())));
    ArrayNode entries = root.putArray("entries");
    for (LogEntry entry : log.entries()) {
      ObjectNode node = entries.addObject();
      node.put("entry", entry.number());
      node.put("at", entry.at().toString());
      node.put("kind", entry.event().word());
      if (entry.event() instanceof Corrected corrected) {
        node.put("corrects", corrected.entry());
      }
      if (entry.event() instanceof Event.Replanned replanned) {
        ArrayNode changes = node.putArray("changes");
        replanned
            .changes()
            .forEach(
                change ->
                    changes
                        .addObject()
                        .put(
                            "what",
                            ChangeWords.what(change, replanned.chart().numbering(), log.practice()))
                        .put("why", ChangeWords.why(change)));
      }
    }
    return Json.write(root);
  }

  private static void done(
      ObjectNode node, CourseLog.Recorded one, CourseProgress.OfVisit visit, Numbering numbering) {
    VisitDone done = one.done();
    node.put("visit", done.visit());
    node.put("entry", one.entry());
    node.put("date", done.date().toString());
    node.put("clinician", done.clinician());
    if (one.planned() != null) {
      node.put("plannedMinutes", Json.round(one.planned().expectedSeconds() / 60.0, 2));
    }
    if (done.minutes() != null) {
      node.put("minutes", Json.round(done.minutes(), 2));
    }
    node.put("bookedMinutes", done.bookedMinutes());
    node.put("interrupted", done.interrupted());
    work(node, visit, numbering);
    ArrayNode steps = node.putArray("steps");
    for (StepDone step : done.steps()) {
      ObjectNode each = steps.addObject();
      each.put("area", step.area().name(numbering));
      each.put("pass", step.pass().word());
      each.put("aspect", step.aspect().word());
      each.put("share", Json.round(step.share(), 4));
    }
  }

  /** How far each area of a visit has come. */
  private static void work(ObjectNode node, CourseProgress.OfVisit visit, Numbering numbering) {
    ArrayNode work = node.putArray("work");
    for (CourseProgress.OfArea area : visit.areas()) {
      ObjectNode each = work.addObject();
      each.put("area", area.area().name(numbering));
      each.put("extent", area.extent().word());
      each.put("share", Json.round(area.share(), 4));
      each.put("planned", area.planned());
      ArrayNode passes = each.putArray("passes");
      for (CourseProgress.OfPass pass : area.passes()) {
        passes
            .addObject()
            .put("pass", pass.pass().word())
            .put("extent", pass.extent().word())
            .put("share", Json.round(pass.share(), 4));
      }
    }
  }
}
