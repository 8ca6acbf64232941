package quadrille.diary.book;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.calendar.Interval;
import quadrille.document.FaultWords;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.plan.course.StopQuestions;

/** Reads what a course asks of the diary. */
final class CourseReading {

  private final DiaryReader.Known known;

  CourseReading(DiaryReader.Known known) {
    this.known = known;
  }

  CourseRequest course(Node node) {
    Fields fields =
        node.object(
            "case",
            "asked",
            "earliest",
            "ended",
            "provisional",
            "visits",
            "finishWithin",
            "reevaluateWeeks",
            "available",
            "prefers",
            "longestGapDays",
            "longerGaps");
    String caseName = fields.required("case").text();
    LocalDate asked = fields.required("asked").date();
    LocalDate earliest = fields.optional("earliest").map(Node::date).orElse(asked);
    List<VisitRequest> visits = new ArrayList<>();
    for (Node item : fields.required("visits").items(1, 99)) {
      visits.add(visit(item, visits));
    }
    Fields weeks = fields.required("reevaluateWeeks").object("from", "to");
    int from = weeks.required("from").whole(0, 104);
    Node toNode = weeks.required("to");
    int to = toNode.whole(0, 104);
    if (to < from && toNode.isNumber()) {
      toNode.fault(from + " weeks or more");
    }
    Availability availability =
        fields.optional("available").map(this::availability).orElse(Availability.ANY);
    Preferences preferences =
        fields.optional("prefers").map(this::preferences).orElse(Preferences.NONE);
    return new CourseRequest(
        caseName,
        asked,
        earliest,
        visits,
        from,
        to,
        availability,
        preferences,
        DiaryReader.each(fields, "finishWithin", item -> deadline(item, visits)),
        fields.optional("provisional").map(Node::truth).orElse(false),
        fields.optional("ended").map(Node::date).orElse(null),
        fields.optional("longestGapDays").map(days -> days.whole(0, 365)).orElse(null),
        fields.optional("longerGaps").map(CourseReading::longerGaps).orElse(null));
  }

  /** Null where something is wrong with it, which is a fault. */
  private static @Nullable LongerGaps longerGaps(Node node) {
    Fields fields = node.object("days", "allowedBy");
    Node daysNode = fields.required("days");
    int days = daysNode.whole(1, LongerGaps.MOST_DAYS);
    Node nameNode = fields.required("allowedBy");
    String name = nameNode.text();
    if (name.length() > LongerGaps.MOST_NAME) {
      nameNode.fault("at most " + LongerGaps.MOST_NAME + " characters");
      return null;
    }
    boolean right = daysNode.isNumber() && days >= 1 && days <= LongerGaps.MOST_DAYS;
    return right && !name.isBlank() ? new LongerGaps(days, name) : null;
  }

  private static CourseRequest.Deadline deadline(Node node, List<VisitRequest> visits) {
    Fields fields = node.object("from", "to", "days");
    List<Integer> numbers = visits.stream().map(VisitRequest::number).toList();
    Node toNode = fields.required("to");
    int from = visitOf(fields.required("from"), numbers);
    int to = visitOf(toNode, numbers);
    if (to <= from && toNode.isNumber()) {
      toNode.fault("a visit after visit " + from);
    }
    return new CourseRequest.Deadline(from, to, fields.required("days").whole(1, 365));
  }

  private static int visitOf(Node node, List<Integer> numbers) {
    int number = node.whole(1, 99);
    if (node.isNumber() && !numbers.contains(number)) {
      node.fault(
          "a visit of its course: "
              + FaultWords.either(numbers.stream().map(String::valueOf).toList()));
    }
    return number;
  }

  private VisitRequest visit(Node node, List<VisitRequest> before) {
    Fields fields =
        node.object("visit", "minutes", "needs", "sets", "gapDays", "stopQuestions", "needles");
    Node numberNode = fields.required("visit");
    int number = numberNode.whole(1, 99);
    if (!before.isEmpty() && numberNode.isNumber()) {
      int last = before.get(before.size() - 1).number();
      if (number <= last) {
        numberNode.fault("a number above " + last + ", that of the visit before");
      }
    }
    int minutes = fields.required("minutes").whole(1, DiaryReader.MOST_MINUTES);
    int least = 0;
    int most = 0;
    if (before.isEmpty()) {
      fields
          .optional("gapDays")
          .ifPresent(gap -> gap.fault("no gap in the first visit: nothing goes before it"));
    } else {
      Fields gap = fields.required("gapDays").object("min", "max");
      least = gap.required("min").whole(0, 365);
      Node mostNode = gap.required("max");
      most = mostNode.whole(0, 365);
      if (most < least && mostNode.isNumber()) {
        mostNode.fault(least + " days or more");
      }
    }
    return new VisitRequest(
        number,
        minutes,
        DiaryReader.capabilities(fields, "needs"),
        known.sets(fields),
        least,
        most,
        DiaryReader.each(fields, "stopQuestions", StopQuestions::read),
        needles(fields, minutes));
  }

  private static List<NeedleTime> needles(Fields visit, int minutes) {
    List<NeedleTime> times = new ArrayList<>();
    for (Node node : visit.optional("needles").map(Node::items).orElse(List.of())) {
      Fields fields = node.object("from", "to");
      int last = times.isEmpty() ? -1 : times.get(times.size() - 1).to();
      Node fromNode = fields.required("from");
      Node toNode = fields.required("to");
      int from = fromNode.whole(0, DiaryReader.MOST_MINUTES);
      int to = toNode.whole(0, DiaryReader.MOST_MINUTES);
      if (from <= last && fromNode.isNumber()) {
        fromNode.fault("a minute after " + last + ", where the time before ends");
      } else if ((to <= from || to > minutes) && toNode.isNumber()) {
        toNode.fault("a minute after it begins, at most " + minutes);
      } else if (fromNode.isNumber() && toNode.isNumber()) {
        times.add(new NeedleTime(from, to));
      }
    }
    return times;
  }

  private Availability availability(Node node) {
    Fields fields = node.object("weekly", "off", "busy");
    List<Interval> busy =
        DiaryReader.each(
            fields,
            "busy",
            item ->
                known.span(
                    item.object("start", "end"), DiaryReader.MOST_DAYS * DiaryReader.MOST_MINUTES));
    return new Availability(
        DiaryReader.each(fields, "weekly", HoursReading::weekly),
        DiaryReader.each(fields, "off", HoursReading::off),
        busy);
  }

  private Preferences preferences(Node node) {
    Fields fields = node.object("times", "clinician");
    return new Preferences(
        DiaryReader.each(fields, "times", HoursReading::weekly),
        DiaryReader.orNull(fields, "clinician", known::clinician));
  }
}
