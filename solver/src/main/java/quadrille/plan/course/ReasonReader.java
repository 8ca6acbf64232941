package quadrille.plan.course;

import java.util.ArrayList;
import java.util.List;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.WishFields;
import quadrille.facts.practice.Figure;
import quadrille.plan.course.ReasonWriter.BecauseKind;
import quadrille.plan.course.ReasonWriter.RemedyKind;
import quadrille.plan.course.Remedy.Change;

/** Reads what {@link ReasonWriter} writes; the words beside it are passed over. */
final class ReasonReader {
  private static final int SENTENCE = 2000;
  private static final int MOST_VISITS = 100;
  private static final int MOST_INSERTS = 1000;
  private static final int DAY_MINUTES = 24 * 60;

  private ReasonReader() {}

  static WhyVisit why(Node node, int visit) {
    Enum<?> kind =
        NoteReader.kind(
            node.map().required("because"), WhyVisit.Known.values(), BecauseKind.values());
    if (kind instanceof WhyVisit.Known known) {
      return new WhyVisit(visit, others(fields(node, "because", "visits")), known);
    }
    return switch ((BecauseKind) kind) {
      case LONGEST_VISIT -> {
        Fields fields = fields(node, "because", "visits", "minutes", "longestMinutes", "limits");
        yield new WhyVisit(
            visit,
            others(fields),
            new WhyVisit.TooLong(
                minutes(fields, "minutes"), minutes(fields, "longestMinutes"), limits(fields)));
      }
      case TRAY -> {
        Fields fields = fields(node, "because", "visits", "inserts", "holds", "source");
        yield new WhyVisit(
            visit,
            others(fields),
            new WhyVisit.Tray(
                inserts(fields, "inserts"), figure(inserts(fields, "holds"), fields)));
      }
    };
  }

  static OneVisitFewer fewer(Node node) {
    return fewer(fields(node, "visits", "remedies"));
  }

  static OneVisitFewer fewer(Fields fields) {
    List<Remedy> remedies = new ArrayList<>();
    for (Node one : fields.required("remedies").items()) {
      remedies.add(remedy(one));
    }
    return new OneVisitFewer(fields.required("visits").whole(1, MOST_VISITS), remedies);
  }

  static WishOutcome wish(Node node, Numbering numbering) {
    List<String> keys = new ArrayList<>(WishFields.KEYS);
    keys.addAll(
        List.of(
            "state",
            "priceSeconds",
            "priceBookedMinutes",
            "priceVisits",
            "wouldCostSeconds",
            "noOtherInsert",
            "against"));
    Fields fields = fields(node, keys.toArray(String[]::new));
    WishOutcome.State state =
        (WishOutcome.State) NoteReader.kind(fields.required("state"), WishOutcome.State.values());
    WishOutcome outcome = new WishOutcome(WishFields.read(fields, numbering), state);
    if (fields.has("priceSeconds")) {
      outcome =
          outcome.priced(
              new WishOutcome.Price(
                  fields.required("priceSeconds").whole(0, Integer.MAX_VALUE),
                  fields.required("priceBookedMinutes").whole(-10_000, 10_000),
                  fields.required("priceVisits").whole(-MOST_VISITS, MOST_VISITS)));
    }
    if (fields.has("wouldCostSeconds")) {
      return outcome.refused(
          new WishOutcome.CostsMore(
              fields.required("wouldCostSeconds").whole(0, Integer.MAX_VALUE)));
    }
    if (fields.has("noOtherInsert") && fields.required("noOtherInsert").truth()) {
      return outcome.refused(new WishOutcome.NoOtherInsert());
    }
    return fields.has("against")
        ? outcome.refused(
            new WishOutcome.Rules(
                fields.required("against").items().stream()
                    .map(one -> (HardRule) NoteReader.kind(one, HardRule.values()))
                    .toList()))
        : outcome;
  }

  private static Remedy remedy(Node node) {
    RemedyKind kind =
        (RemedyKind) NoteReader.kind(node.map().required("kind"), RemedyKind.values());
    List<String> keys = new ArrayList<>(List.of("kind", "visits", "longestMinutes"));
    keys.addAll(
        switch (kind) {
          case VISITS -> List.of("number");
          case LONGER_VISITS -> List.of("minutes", "insteadOfMinutes", "limits");
          case LARGER_TRAY -> List.of("inserts", "insteadOf", "source");
          case LESS_CERTAINTY -> List.of("certainty", "insteadOf", "source");
          case ALLOW_AGENT -> List.of("agent");
          case FRONT_ACROSS_MIDLINE, PASSES_APART -> List.of();
        });
    Fields fields = node.object(keys);
    Change change =
        switch (kind) {
          case VISITS -> new Change.Visits(fields.required("number").whole(1, MOST_VISITS));
          case LONGER_VISITS ->
              new Change.LongerVisits(
                  minutes(fields, "minutes"), minutes(fields, "insteadOfMinutes"), limits(fields));
          case LARGER_TRAY ->
              new Change.LargerTray(
                  inserts(fields, "inserts"), figure(inserts(fields, "insteadOf"), fields));
          case LESS_CERTAINTY ->
              new Change.LessCertainty(
                  fields.required("certainty").number(0, 1),
                  figure(fields.required("insteadOf").number(0, 1), fields));
          case ALLOW_AGENT -> new Change.AllowAgent(fields.required("agent").text());
          case FRONT_ACROSS_MIDLINE -> new Change.FrontAcrossMidline();
          case PASSES_APART -> new Change.PassesApart();
        };
    return new Remedy(
        change, fields.required("visits").whole(1, MOST_VISITS), minutes(fields, "longestMinutes"));
  }

  private static List<LengthLimit> limits(Fields fields) {
    List<LengthLimit> limits = new ArrayList<>();
    for (Node one : fields.required("limits").items()) {
      Fields limit = one.object("whose", "alert", "minutes", "source");
      limits.add(
          new LengthLimit(
              limit.required("whose").word(List.of(LengthLimit.Whose.values()), FileWords::of),
              limit.has("alert")
                  ? limit.required("alert").word(List.of(Alert.values()), Alert::word)
                  : null,
              figure(minutes(limit, "minutes"), limit)));
    }
    return limits;
  }

  private static List<Integer> others(Fields fields) {
    List<Integer> others = new ArrayList<>();
    for (Node one : fields.required("visits").items()) {
      others.add(one.whole(1, MOST_VISITS));
    }
    return others;
  }

  private static int minutes(Fields fields, String key) {
    return fields.required(key).whole(1, DAY_MINUTES);
  }

  private static int inserts(Fields fields, String key) {
    return fields.required(key).whole(1, MOST_INSERTS);
  }

  private static Figure figure(double value, Fields fields) {
    return Figure.written(value, fields.required("source").text(SENTENCE));
  }

  private static Fields fields(Node node, String... keys) {
    List<String> all = new ArrayList<>(List.of(keys));
    all.add("words");
    Fields fields = node.object(all);
    fields.optional("words").ifPresent(words -> words.text(SENTENCE));
    return fields;
  }
}
