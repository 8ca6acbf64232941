package quadrille.facts.chart;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fields;
import quadrille.document.Node;
import quadrille.facts.chart.Wish.Region;

/** A wish as an object with typed keys, as charts and plan files hold it. */
public final class WishFields {

  /** The keys of such an object. */
  public static final List<String> KEYS =
      List.of("wish", "must", "areas", "visit", "ofVisits", "insert");

  private enum Kind {
    IN_VISIT("in-visit", true),
    TOGETHER("together", true),
    APART("apart", true),
    FIRST("first", true),
    NO_INJECTION("no-injection", true),
    NOT_INSERT("not-insert", false),
    NUMB_FIRST("numb-first", false),
    BY_HAND("by-hand", false);

    private final String word;

    /** Whether it is about places. */
    private final boolean placed;

    Kind(String word, boolean placed) {
      this.word = word;
      this.placed = placed;
    }

    String word() {
      return word;
    }
  }

  private WishFields() {}

  /**
   * Reads a wish; what is wrong with it goes to the document's faults.
   *
   * @param numbering by which teeth are named there
   */
  public static Wish read(Fields fields, Numbering numbering) {
    Kind kind = fields.required("wish").word(List.of(Kind.values()), Kind::word);
    boolean must = fields.required("must").truth();
    for (String key : List.of("areas", "visit", "ofVisits", "insert")) {
      boolean belongs =
          switch (key) {
            case "areas" -> kind.placed;
            case "insert" -> kind == Kind.NOT_INSERT;
            default -> kind == Kind.IN_VISIT;
          };
      if (!belongs) {
        fields
            .optional(key)
            .ifPresent(
                node -> node.fault("key \"" + key + "\"", "no such key of \"" + kind.word + "\""));
      }
    }
    List<Region> regions =
        kind.placed ? regions(fields.required("areas"), kind, numbering) : List.of();
    WishSentences.overlap(regions)
        .ifPresent(both -> fields.node().fault(both.name(numbering), "places that do not overlap"));
    Wish.Ask ask =
        switch (kind) {
          case IN_VISIT -> {
            int visit = fields.required("visit").whole(1, WishSentences.MOST_VISITS);
            Optional<Integer> of =
                fields
                    .optional("ofVisits")
                    .map(node -> node.whole(visit, WishSentences.MOST_VISITS));
            yield new Wish.InVisit(regions, visit, of.orElse(null));
          }
          case TOGETHER -> new Wish.Together(regions);
          case APART -> new Wish.Apart(regions);
          case FIRST -> new Wish.First(regions);
          case NO_INJECTION -> new Wish.NoInjection(regions);
          case NOT_INSERT -> new Wish.NotInsert(fields.required("insert").text());
          case NUMB_FIRST -> new Wish.NumbFirst();
          case BY_HAND -> new Wish.ByHand();
        };
    return new Wish(must, ask);
  }

  private static List<Region> regions(Node node, Kind kind, Numbering numbering) {
    return node.items(kind == Kind.APART ? 2 : 1, 8).stream()
        .map(one -> region(one, numbering))
        .toList();
  }

  private static Region region(Node node, Numbering numbering) {
    Fields fields = node.object("quadrant", "half", "from", "to");
    Quadrant quadrant =
        fields.required("quadrant").word(List.of(Quadrant.values()), Quadrant::name);
    Half half =
        fields
            .optional("half")
            .map(word -> word.word(List.of(Half.values()), Half::word))
            .orElse(null);
    Tooth from = tooth(fields, "from", numbering);
    Tooth to = tooth(fields, "to", numbering);
    if (half == null) {
      for (String key : List.of("from", "to")) {
        fields.optional(key).ifPresent(tooth -> tooth.fault("teeth without \"half\"", "both"));
      }
      return new Region(quadrant, null);
    }
    Optional<AreaRef> area = AreaRef.of(quadrant, half, from, to);
    if (area.isEmpty()) {
      node.fault(
          "teeth that bound no part of " + quadrant + " " + half.word(),
          "\"from\" and \"to\" of that area, from back to front, or neither");
    }
    return new Region(quadrant, area.orElse(AreaRef.whole(quadrant, half)));
  }

  private static @Nullable Tooth tooth(Fields fields, String key, Numbering numbering) {
    return fields
        .optional(key)
        .map(node -> node.word(Tooth.values().stream().toList(), tooth -> numbering.name(tooth)))
        .orElse(null);
  }

  /** The members of a wish. */
  public static Map<String, Object> members(Wish wish, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Wish.Ask ask = wish.ask();
    fields.put("wish", kind(ask).word);
    fields.put("must", wish.must());
    if (!ask.regions().isEmpty()) {
      fields.put("areas", ask.regions().stream().map(one -> members(one, numbering)).toList());
    }
    if (ask instanceof Wish.InVisit in) {
      fields.put("visit", in.visit());
      if (in.ofVisits() != null) {
        fields.put("ofVisits", in.ofVisits());
      }
    } else if (ask instanceof Wish.NotInsert not) {
      fields.put("insert", not.insert());
    }
    return fields;
  }

  private static Kind kind(Wish.Ask ask) {
    if (ask instanceof Wish.InVisit) {
      return Kind.IN_VISIT;
    }
    if (ask instanceof Wish.Together) {
      return Kind.TOGETHER;
    }
    if (ask instanceof Wish.Apart) {
      return Kind.APART;
    }
    if (ask instanceof Wish.First) {
      return Kind.FIRST;
    }
    if (ask instanceof Wish.NoInjection) {
      return Kind.NO_INJECTION;
    }
    if (ask instanceof Wish.ByHand) {
      return Kind.BY_HAND;
    }
    return ask instanceof Wish.NotInsert ? Kind.NOT_INSERT : Kind.NUMB_FIRST;
  }

  private static Map<String, Object> members(Region region, Numbering numbering) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("quadrant", region.quadrant().name());
    AreaRef area = region.area();
    if (area != null) {
      fields.put("half", area.half().word());
      Tooth from = area.from();
      Tooth to = area.to();
      if (from != null && to != null) {
        fields.put("from", numbering.name(from));
        fields.put("to", numbering.name(to));
      }
    }
    return fields;
  }
}
