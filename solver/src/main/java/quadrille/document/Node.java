package quadrille.document;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A value of a JSON document that knows its place.
 *
 * <p>The readers ({@link #whole}, {@link #word} and so on) do not throw. What is wrong goes to the
 * document's {@link Faults}, and the reader answers with a stand-in from within what is allowed, so
 * that reading goes on and every fault comes to light at once. {@link Faults#check} then keeps
 * stand-ins from getting out.
 *
 * <pre>{@code
 * Faults faults = new Faults();
 * Fields gel = JsonDocument.read("practice.json", text, faults).object("owned", "fromAgeYears");
 * boolean owned = gel.required("owned").truth();
 * Optional<Integer> age = gel.optional("fromAgeYears").map(node -> node.whole(0, 120));
 * faults.check();
 * }</pre>
 */
public final class Node {

  /** What a number looks like in JSON. YAML knows others, whose meaning depends on the reader. */
  private static final Pattern NUMBER =
      Pattern.compile("-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][+-]?[0-9]+)?");

  private static final Pattern DECIMAL_COMMA = Pattern.compile("-?[0-9]{1,9},[0-9]{1,9}");

  private static final Pattern DATE = Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}");

  private static final Pattern TIME = Pattern.compile("([01][0-9]|2[0-3]):[0-5][0-9]");

  private static final Pattern MOMENT =
      Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:00(Z|[+-][0-9]{2}:[0-9]{2})");

  private static final DateTimeFormatter OFFSET_TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssxxx", Locale.ROOT);

  enum Kind {
    OBJECT,
    ARRAY,
    TEXT,
    NUMBER,
    TRUE,
    FALSE,
    NULL,
    /** A required member that is not there; whoever reads it says so. */
    MISSING,
    /** Stands for what a fault already covers; reading it says nothing. */
    STAND_IN
  }

  private final Faults faults;
  private @Nullable Node parent;
  private final String key;
  private final String source;
  private final int line;
  private final int column;
  private final Kind kind;
  private final String text;

  /** Stands for the pointer where the document is no JSON. */
  private final @Nullable String label;

  /** What people call it, such as a tooth; empty where its place says enough. */
  private String called = "";

  private final Map<String, Node> members;
  private final List<Node> elements;

  Node(
      Faults faults,
      @Nullable Node parent,
      String key,
      String source,
      int line,
      int column,
      Kind kind,
      String text) {
    this.faults = faults;
    this.parent = parent;
    this.key = key;
    this.source = source;
    this.line = line;
    this.column = column;
    this.kind = kind;
    this.text = text;
    this.label = null;
    this.members = kind == Kind.OBJECT ? new Members() : Map.of();
    this.elements = kind == Kind.ARRAY ? new ArrayList<>() : List.of();
  }

  private Node(Faults faults, Place place, Kind kind, String text) {
    this.faults = faults;
    this.parent = null;
    this.key = "";
    this.source = place.source();
    this.line = place.line();
    this.column = place.column();
    this.kind = kind;
    this.text = text;
    this.label = place.within();
    this.members = kind == Kind.OBJECT ? new Members() : Map.of();
    this.elements = kind == Kind.ARRAY ? new ArrayList<>() : List.of();
  }

  // ---- made from a document that is no JSON, such as a table

  /** A text, as it stands. */
  public static Node ofText(Faults faults, Place place, String text) {
    return new Node(faults, place, Kind.TEXT, text);
  }

  /**
   * A cell of a table: null where blank, a number or a truth value where it looks like one ({@code
   * TRUE} as spreadsheets write it, too), a text otherwise.
   */
  public static Node ofCell(Faults faults, Place place, String cell) {
    String bare = cell.strip();
    if (bare.isEmpty()) {
      return new Node(faults, place, Kind.NULL, "");
    }
    if (NUMBER.matcher(bare).matches()) {
      return new Node(faults, place, Kind.NUMBER, bare);
    }
    if (bare.equalsIgnoreCase("true")) {
      return new Node(faults, place, Kind.TRUE, "");
    }
    if (bare.equalsIgnoreCase("false")) {
      return new Node(faults, place, Kind.FALSE, "");
    }
    return new Node(faults, place, Kind.TEXT, bare);
  }

  /** An array of values that keep their own places. */
  public static Node ofElements(Faults faults, Place place, List<Node> elements) {
    Node array = new Node(faults, place, Kind.ARRAY, "");
    elements.forEach(element -> element.parent = array);
    array.elements.addAll(elements);
    return array;
  }

  /** An object of values that keep their own places. */
  public static Node ofMembers(Faults faults, Place place, Map<String, Node> members) {
    Node object = new Node(faults, place, Kind.OBJECT, "");
    members.values().forEach(member -> member.parent = object);
    object.members.putAll(members);
    return object;
  }

  /** Stands for what a fault already covers: every reader of it is silent. */
  public static Node standIn(Faults faults, Place place) {
    return new Node(faults, place, Kind.STAND_IN, "");
  }

  /** For the builder of the tree alone; a tree that has been handed out no longer changes. */
  @Nullable Node put(String name, Node member) {
    return members.putIfAbsent(name, member);
  }

  /** For the builder of the tree alone. */
  void append(Node element) {
    elements.add(element);
  }

  int size() {
    return elements.size();
  }

  Map<String, Node> members() {
    return Collections.unmodifiableMap(members);
  }

  Node missing(String name) {
    return new Node(faults, this, name, source, line, column, Kind.MISSING, "");
  }

  private Node standIn() {
    return new Node(faults, this, "", source, line, column, Kind.STAND_IN, "");
  }

  // ---- what it is

  public boolean isNull() {
    return kind == Kind.NULL;
  }

  public boolean isText() {
    return kind == Kind.TEXT;
  }

  public boolean isNumber() {
    return kind == Kind.NUMBER;
  }

  /** Whether it is true or false. */
  public boolean isTruth() {
    return kind == Kind.TRUE || kind == Kind.FALSE;
  }

  public boolean isObject() {
    return kind == Kind.OBJECT;
  }

  public boolean isArray() {
    return kind == Kind.ARRAY;
  }

  /** Whether it is just this text. */
  public boolean is(String word) {
    return kind == Kind.TEXT && text.equals(word);
  }

  /** Where it stands; a missing member stands where its object does. */
  public Place place() {
    if (label == null && parent != null && (kind == Kind.MISSING || kind == Kind.STAND_IN)) {
      return parent.place();
    }
    String within = label == null ? pointer() : label;
    return new Place(source, line, column, (within + terms()).strip());
  }

  /**
   * Says what people call this value. Faults of it, and of what is within it, name it beside their
   * place: {@code chart.json:12 /teeth/3/facial/depthMm/1 (tooth 16, facial, middle)}.
   */
  public Node call(String name) {
    called = FaultWords.plain(name, 60);
    return this;
  }

  private String terms() {
    List<String> terms = new ArrayList<>();
    for (Node node = this; node != null; node = node.parent) {
      if (!node.called.isEmpty()) {
        terms.add(0, node.called);
      }
    }
    return terms.isEmpty() ? "" : " (" + String.join(", ", terms) + ")";
  }

  /** The JSON pointer (RFC 6901) from the root, which is empty itself. */
  public String pointer() {
    if (parent == null) {
      return "";
    }
    return parent.pointer() + "/" + escaped(key);
  }

  static String escaped(String key) {
    return FaultWords.plain(key.replace("~", "~0").replace("/", "~1"), 60);
  }

  /** As a fault quotes it. */
  public String quoted() {
    return switch (kind) {
      case OBJECT -> "an object";
      case ARRAY -> elements.isEmpty() ? "an empty array" : "an array of " + elements.size();
      case TEXT -> FaultWords.quote(text);
      case NUMBER -> FaultWords.plain(text, 40);
      case TRUE -> "true";
      case FALSE -> "false";
      case NULL -> "null";
      case MISSING -> "no " + FaultWords.quote(key);
      case STAND_IN -> "nothing";
    };
  }

  /** Reports the value itself. */
  public void fault(String allowed) {
    fault(quoted(), allowed);
  }

  /** Reports something about the value. Says nothing where a fault already covers it. */
  public void fault(String found, String allowed) {
    if (kind != Kind.STAND_IN && faults.full()) {
      faults.count();
    } else if (kind != Kind.STAND_IN) {
      faults.add(place(), found, allowed);
    }
  }

  /**
   * This document with another laid over it: objects are laid over member by member, and anything
   * else of the upper document takes the place of the lower. Every value keeps its own place, so
   * that a fault names the document that it stands in.
   */
  public Node overlaidBy(Node upper) {
    if (kind != Kind.OBJECT || upper.kind != Kind.OBJECT) {
      return upper;
    }
    Node both =
        new Node(
            upper.faults,
            upper.parent,
            upper.key,
            upper.source,
            upper.line,
            upper.column,
            Kind.OBJECT,
            "");
    both.members.putAll(members);
    upper.members.forEach(
        (name, member) ->
            both.members.merge(name, member, (below, above) -> below.overlaidBy(above)));
    return both;
  }

  /**
   * This object with other keys in one of its members, as where names have changed since a file was
   * written. Every value keeps its place; two keys that become one are laid over each other.
   */
  public Node renamed(String member, UnaryOperator<String> now) {
    Node named = members.get(member);
    if (named == null || named.kind != Kind.OBJECT) {
      return this;
    }
    Node renamed = named.bare(named.text);
    named.members.forEach(
        (name, value) ->
            renamed.members.merge(now.apply(name), value, (one, other) -> one.overlaidBy(other)));
    Node both = bare(text);
    both.members.putAll(members);
    both.members.put(member, renamed);
    return both;
  }

  /** This text in other words, as where words have changed since a file was written. */
  public Node reworded(UnaryOperator<String> now) {
    return kind == Kind.TEXT ? bare(now.apply(text)) : this;
  }

  /** The same value in the same place, without members and elements. */
  private Node bare(String text) {
    return new Node(faults, parent, key, source, line, column, kind, text);
  }

  // ---- readers

  /** An object with no other keys than these. */
  public Fields object(String... keys) {
    return object(List.of(keys));
  }

  /** An object with no other keys than these. */
  public Fields object(List<String> keys) {
    Fields fields = map();
    for (Map.Entry<String, Node> member : members.entrySet()) {
      String written = member.getKey();
      if (keys.contains(written)) {
        continue;
      }
      if (faults.full()) {
        faults.count();
        continue;
      }
      faults.addAlike(
          member.getValue().place(),
          "key " + FaultWords.quote(written),
          FaultWords.either(keys, written));
      FaultWords.nearest(keys, written).ifPresent(fields::misnamed);
    }
    return fields;
  }

  /** An object whose keys are free, such as names. */
  public Fields map() {
    if (kind == Kind.OBJECT) {
      return new Fields(this, standIn());
    }
    fault("an object");
    Node nothing = standIn();
    return new Fields(nothing, nothing);
  }

  /** The elements of an array of any length. */
  public List<Node> items() {
    return items(0, Integer.MAX_VALUE);
  }

  /**
   * The elements of an array.
   *
   * @param least fewest elements
   * @param most most elements, at least {@code least}
   * @return {@code least} to {@code most} elements, whatever was found
   */
  public List<Node> items(int least, int most) {
    boolean fits = kind == Kind.ARRAY && least <= elements.size() && elements.size() <= most;
    if (!fits) {
      fault(lengths(least, most));
    }
    List<Node> items = new ArrayList<>(elements.subList(0, Math.min(most, elements.size())));
    while (items.size() < least) {
      items.add(standIn());
    }
    return Collections.unmodifiableList(items);
  }

  private static String lengths(int least, int most) {
    if (most == Integer.MAX_VALUE) {
      return least == 0 ? "an array" : "an array of " + least + " or more";
    }
    return "an array of " + (least == most ? "" : least + " to ") + most;
  }

  /** A text of 1 to 200 characters, see {@link #text(int)}. */
  public String text() {
    return text(200);
  }

  /**
   * A text that is not blank and has no control characters.
   *
   * @param most most characters (code points)
   */
  public String text(int most) {
    if (kind == Kind.TEXT && isPlain(text, most)) {
      return text;
    }
    fault("a text of 1 to " + most + " characters, not blank, without control characters");
    return "?";
  }

  /** Whether {@link #text(int)} reads a text. */
  public static boolean isPlain(String text, int most) {
    boolean blank =
        text.codePoints()
            .allMatch(
                point ->
                    switch (Character.getType(point)) {
                      case Character.SPACE_SEPARATOR,
                          Character.LINE_SEPARATOR,
                          Character.PARAGRAPH_SEPARATOR ->
                          true;
                      default -> false;
                    });
    return !blank
        && text.codePointCount(0, text.length()) <= most
        && text.codePoints()
            .noneMatch(
                point ->
                    Character.getType(point) == Character.CONTROL
                        || Character.getType(point) == Character.SURROGATE);
  }

  /** A whole number, both bounds included; {@code 3.0} is whole. */
  public int whole(int least, int most) {
    Optional<Integer> value = wholeWithin(least, most);
    if (value.isPresent()) {
      return value.get();
    }
    fault("a whole number from " + least + " to " + most + unquoted());
    return least;
  }

  /** A whole number, both bounds included, or null (in a table: blank). */
  public @Nullable Integer wholeOrNull(int least, int most) {
    if (kind == Kind.NULL || kind == Kind.STAND_IN) {
      return null;
    }
    Optional<Integer> value = wholeWithin(least, most);
    if (value.isPresent()) {
      return value.get();
    }
    String nothing = label == null ? ", or null" : ", or blank";
    fault("a whole number from " + least + " to " + most + unquoted() + nothing);
    return null;
  }

  private Optional<Integer> wholeWithin(int least, int most) {
    return decimal(BigDecimal.valueOf(least), BigDecimal.valueOf(most))
        .filter(value -> value.stripTrailingZeros().scale() <= 0)
        .map(BigDecimal::intValueExact);
  }

  /** A number, both bounds included. */
  public double number(double least, double most) {
    BigDecimal from = BigDecimal.valueOf(least);
    BigDecimal to = BigDecimal.valueOf(most);
    Optional<BigDecimal> value = decimal(from, to);
    if (value.isPresent()) {
      return value.get().doubleValue();
    }
    fault("a number from " + shown(from) + " to " + shown(to) + unquoted() + pointed());
    return least;
  }

  private String pointed() {
    return kind == Kind.TEXT && DECIMAL_COMMA.matcher(text).matches()
        ? ", with a point and no comma: " + text.replace(',', '.')
        : "";
  }

  private static String shown(BigDecimal bound) {
    return bound.signum() == 0 ? "0" : bound.stripTrailingZeros().toPlainString();
  }

  /** The number as written, if it is one and within the bounds. */
  private Optional<BigDecimal> decimal(BigDecimal least, BigDecimal most) {
    // Nobody measures to so many digits, and to convert a million of them takes minutes.
    if (kind != Kind.NUMBER || text.length() > 1000 || !NUMBER.matcher(text).matches()) {
      return Optional.empty();
    }
    try {
      // The bounds come first: to spell out 1e999999999 would take a gigabyte.
      return Optional.of(new BigDecimal(text))
          .filter(value -> value.compareTo(least) >= 0 && value.compareTo(most) <= 0);
    } catch (NumberFormatException exponentBeyondInt) {
      return Optional.empty();
    }
  }

  private String unquoted() {
    return kind == Kind.TEXT && NUMBER.matcher(text).matches() ? ", without quotes" : "";
  }

  /** {@code true} or {@code false}. */
  public boolean truth() {
    if (!isTruth()) {
      fault("true or false");
    }
    return kind == Kind.TRUE;
  }

  /** A day written as {@code 2026-03-02}. */
  public LocalDate date() {
    if (kind == Kind.TEXT && DATE.matcher(text).matches()) {
      try {
        return LocalDate.parse(text);
      } catch (DateTimeException noSuchDay) {
        fault("a day that exists, as 2026-03-02");
        return LocalDate.EPOCH;
      }
    }
    fault("a day as 2026-03-02");
    return LocalDate.EPOCH;
  }

  /** A time of day written as {@code 08:30}, {@code 00:00} to {@code 23:59}. */
  public LocalTime time() {
    if (kind == Kind.TEXT && TIME.matcher(text).matches()) {
      return LocalTime.parse(text);
    }
    fault("a time of day as 08:30, from 00:00 to 23:59" + unquotedTime());
    return LocalTime.MIDNIGHT;
  }

  private String unquotedTime() {
    // YAML 1.1 takes 8:30 for a number to the base of 60.
    return kind == Kind.NUMBER ? ", in quotes" : "";
  }

  /**
   * A moment in whole minutes, written with the offset that a zone has then: {@code
   * 2026-03-02T09:00:00+01:00}, or {@code Z} where the offset is zero.
   *
   * @param zone null where it is not known, and any offset will do
   */
  public Instant moment(@Nullable ZoneId zone) {
    if (kind == Kind.TEXT && MOMENT.matcher(text).matches()) {
      try {
        OffsetDateTime moment = OffsetDateTime.parse(text);
        if (zone != null
            && !zone.getRules().isValidOffset(moment.toLocalDateTime(), moment.getOffset())) {
          String then = moment.atZoneSameInstant(zone).format(OFFSET_TIME);
          fault("the offset that " + zone + " has then; the same moment there is " + then);
        }
        return moment.toInstant();
      } catch (DateTimeException noSuchMoment) {
        fault("a day and a time that exist, as 2026-03-02T09:00:00+01:00");
        return Instant.EPOCH;
      }
    }
    fault("a moment in whole minutes with its offset, as 2026-03-02T09:00:00+01:00");
    return Instant.EPOCH;
  }

  /**
   * One of a list of words.
   *
   * @param values at least one, in the order in which a fault lists them
   * @param word how a value is written
   */
  public <E> E word(List<E> values, Function<E, String> word) {
    if (kind == Kind.TEXT) {
      for (E value : values) {
        if (word.apply(value).equals(text)) {
          return value;
        }
      }
    }
    List<String> allowed = values.stream().map(word).toList();
    fault(kind == Kind.TEXT ? FaultWords.either(allowed, text) : FaultWords.either(allowed));
    return values.get(0);
  }

  /** An array of words from a list, none of them twice. */
  public <E> List<E> words(List<E> values, Function<E, String> word) {
    List<String> allowed = values.stream().map(word).toList();
    List<E> read = new ArrayList<>();
    for (Node item : items()) {
      E value = item.word(values, word);
      if (item.kind != Kind.TEXT || !allowed.contains(item.text)) {
        continue;
      }
      if (read.contains(value)) {
        item.fault(item.quoted() + " a second time", "each word once");
      } else {
        read.add(value);
      }
    }
    return List.copyOf(read);
  }
}
