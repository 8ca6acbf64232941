package quadrille.document;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.LoaderOptions;

/**
 * Reads JSON text into {@linkplain Node nodes} that know their place. A document whose name ends in
 * {@code .yaml} or {@code .yml} is read as YAML, and means the same.
 */
public final class JsonDocument {

  /** Deepest nesting; our documents need six. Keeps a hostile one from exhausting the stack. */
  static final int DEEPEST = 50;

  static final String EMPTY = "an empty document";

  private static final int MOST_CHARACTERS = 32_000_000;

  /** The YAML parser's time grows with the square of a value's length. */
  private static final int MOST_YAML_CHARACTERS = 1_000_000;

  static final int MOST_VALUES = 3_000_000;

  private static final int LONGEST_SHARED = 16;
  private static final int MOST_SHARED = 1_000;

  private static final Pattern START_MARKER =
      Pattern.compile(" \\(start marker at .*line: ([0-9]+), column: [0-9]+]\\)");
  private static final Pattern DECIMAL_COMMA = Pattern.compile("-?[0-9]{1,9},([0-9]{1,9})");

  private static final Pattern ADVICE =
      Pattern.compile("(: enable | \\(enable | \\(for | \\(not recognized | \\(JSON String).*");

  static final StreamReadConstraints CONSTRAINTS =
      StreamReadConstraints.builder()
          .maxNestingDepth(DEEPEST)
          .maxStringLength(MOST_CHARACTERS)
          .maxNameLength(MOST_CHARACTERS)
          .maxNumberLength(MOST_CHARACTERS)
          .maxTokenCount(MOST_VALUES)
          .build();

  private static final JsonFactory JSON =
      JsonFactory.builder().streamReadConstraints(CONSTRAINTS).build();
  private static final JsonFactory YAML =
      YAMLFactory.builder()
          .streamReadConstraints(CONSTRAINTS)
          .loaderOptions(loaderOptions())
          .build();

  private JsonDocument() {}

  private static LoaderOptions loaderOptions() {
    LoaderOptions options = new LoaderOptions();
    options.setCodePointLimit(MOST_CHARACTERS);
    return options;
  }

  private static boolean yaml(String source) {
    String name = source.toLowerCase(Locale.ROOT);
    return name.endsWith(".yaml") || name.endsWith(".yml");
  }

  /**
   * Reads one document. A key that an object has twice is a fault.
   *
   * @param source the document's name, for faults
   * @param text JSON (RFC 8259), or YAML without aliases; a byte order mark in front is passed over
   * @param faults takes what this and the nodes' readers find
   * @return the root
   * @throws InvalidDocumentException where the text is no JSON at all, at the first such place
   */
  public static Node read(String source, String text, Faults faults)
      throws InvalidDocumentException {
    String bare = text.startsWith("\uFEFF") ? text.substring(1) : text;
    int most = yaml(source) ? MOST_YAML_CHARACTERS : MOST_CHARACTERS;
    if (bare.length() > most) {
      throw invalid(Place.of(source), bare.length() + " characters", "at most " + most);
    }
    if (bare.isBlank()) {
      throw invalid(new Place(source, 1, 1, ""), EMPTY, "an object");
    }
    try (JsonParser parser = (yaml(source) ? YAML : JSON).createParser(bare)) {
      return root(source, bare, parser, faults);
    } catch (IOException impossible) {
      // The text is in memory.
      throw new UncheckedIOException(impossible);
    }
  }

  private static Node root(String source, String text, JsonParser parser, Faults faults)
      throws IOException, InvalidDocumentException {
    String language = yaml(source) ? "YAML" : "JSON";
    try {
      if (parser.nextToken() == null) {
        throw invalid(new Place(source, 1, 1, ""), EMPTY, "an object");
      }
      Node root = new Builder(source, parser, faults, new HashMap<>()).value(null, "");
      if (parser.nextToken() != null) {
        throw invalid(
            syntax(source, parser.currentTokenLocation()),
            "more after the end of the document",
            "one " + language + " value");
      }
      return root;
    } catch (StreamConstraintsException beyond) {
      throw invalid(
          syntax(source, parser.currentLocation()),
          "a document too large or nested too deeply",
          "at most " + MOST_VALUES + " values, nested at most " + DEEPEST + " deep");
    } catch (JsonProcessingException wrong) {
      Place place = syntax(source, wrong.getLocation());
      String reason = reason(wrong.getOriginalMessage());
      Optional<String> number = decimalComma(text, place);
      if (number.isPresent()) {
        throw invalid(
            place,
            "a comma within a number, " + number.get(),
            "a point: " + number.get().replace(',', '.'));
      }
      if (reason.contains("was expecting comma to separate")) {
        throw invalid(place, "no comma in front of this", "a comma between one entry and the next");
      }
      throw invalid(place, reason, language);
    }
  }

  /** The number of whose decimals a place is the first digit. */
  private static Optional<String> decimalComma(String text, Place place) {
    String line = text.lines().skip(Math.max(0, place.line() - 1L)).findFirst().orElse("");
    return DECIMAL_COMMA
        .matcher(line)
        .results()
        .filter(number -> number.start(1) == place.column() - 1)
        .map(MatchResult::group)
        .findFirst();
  }

  /** The parser's reason without its advice to programmers. */
  static String reason(String message) {
    // A YAML reason has its lines at the margin, and indented ones that repeat the place.
    String reason =
        message
            .lines()
            .filter(line -> !line.isBlank() && !Character.isWhitespace(line.charAt(0)))
            .collect(Collectors.joining(", "));
    reason = START_MARKER.matcher(reason).replaceAll(", opened on line $1");
    reason = FaultWords.plain(ADVICE.matcher(reason).replaceAll(""), 200);
    return reason.substring(0, 1).toLowerCase(Locale.ROOT) + reason.substring(1);
  }

  private static Place syntax(String source, @Nullable JsonLocation at) {
    return at == null
        ? Place.of(source)
        : new Place(
            source, at.getLineNr(), at.getColumnNr(), "column " + Math.max(1, at.getColumnNr()));
  }

  private static InvalidDocumentException invalid(Place place, String found, String allowed) {
    return new InvalidDocumentException(List.of(new Fault(place.toString(), found, allowed)));
  }

  /** Builds the tree from the parser's tokens; the parser bounds how deep it may go. */
  private record Builder(
      String source, JsonParser parser, Faults faults, Map<String, String> shared) {

    /** Words that stand in many places are kept once. */
    private String text() throws IOException {
      String text = parser.getText();
      if (text.length() > LONGEST_SHARED) {
        return text;
      }
      String before = shared.get(text);
      if (before == null && shared.size() < MOST_SHARED) {
        shared.put(text, text);
      }
      return before == null ? text : before;
    }

    Node value(@Nullable Node parent, String key) throws IOException, InvalidDocumentException {
      JsonToken token = parser.currentToken();
      JsonLocation at = parser.currentTokenLocation();
      Node.Kind kind =
          switch (token) {
            case START_OBJECT -> Node.Kind.OBJECT;
            case START_ARRAY -> Node.Kind.ARRAY;
            case VALUE_STRING -> Node.Kind.TEXT;
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> Node.Kind.NUMBER;
            case VALUE_TRUE -> Node.Kind.TRUE;
            case VALUE_FALSE -> Node.Kind.FALSE;
            case VALUE_NULL -> Node.Kind.NULL;
            default -> throw new IllegalStateException("No value starts with " + token + ".");
          };
      if (parser instanceof YAMLParser yaml && yaml.isCurrentAlias()) {
        throw invalid(syntax(source, at), "an alias", "the value itself, written out");
      }
      // YAML takes yes and no for truth values, and tools differ on that.
      if ((kind == Node.Kind.TRUE || kind == Node.Kind.FALSE)
          && !parser.getText().equals(token.asString())) {
        kind = Node.Kind.TEXT;
      }
      boolean plain = kind == Node.Kind.TEXT || kind == Node.Kind.NUMBER;
      Node node =
          new Node(
              faults,
              parent,
              key,
              source,
              at.getLineNr(),
              at.getColumnNr(),
              kind,
              plain ? text() : "");
      if (kind == Node.Kind.OBJECT) {
        members(node);
      } else if (kind == Node.Kind.ARRAY) {
        while (parser.nextToken() != JsonToken.END_ARRAY) {
          node.append(value(node, Integer.toString(node.size())));
        }
      }
      return node;
    }

    private void members(Node object) throws IOException, InvalidDocumentException {
      while (parser.nextToken() != JsonToken.END_OBJECT) {
        String key = parser.currentName();
        JsonLocation at = parser.currentTokenLocation();
        parser.nextToken();
        Node member = value(object, key);
        @Nullable Node first = object.put(key, member);
        if (first != null) {
          faults.add(
              new Place(source, at.getLineNr(), at.getColumnNr(), member.pointer()),
              "key "
                  + FaultWords.quote(key)
                  + " a second time (first on line "
                  + first.place().line()
                  + ")",
              "each key once");
        }
      }
    }
  }
}
