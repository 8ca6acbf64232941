package quadrille.reading;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads JSON text into {@linkplain Node nodes} that know their place. */
public final class JsonDocument {

  /** Deepest nesting; our documents need six. Keeps a hostile one from exhausting the stack. */
  static final int DEEPEST = 50;

  private static final int MOST_CHARACTERS = 32_000_000;
  private static final int MOST_VALUES = 2_000_000;

  private static final Pattern START_MARKER =
      Pattern.compile(" \\(start marker at .*line: ([0-9]+), column: [0-9]+]\\)");
  private static final Pattern ADVICE = Pattern.compile("(: enable | \\(enable | \\(for ).*");

  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(DEEPEST)
                  .maxStringLength(MOST_CHARACTERS)
                  .maxNameLength(MOST_CHARACTERS)
                  .maxNumberLength(MOST_CHARACTERS)
                  .maxTokenCount(MOST_VALUES)
                  .build())
          .build();

  private JsonDocument() {}

  /**
   * Reads one document. A key that an object has twice is a fault.
   *
   * @param source the document's name, for faults
   * @param text JSON (RFC 8259); a byte order mark in front is passed over
   * @param faults takes what this and the nodes' readers find
   * @return the root
   * @throws InvalidDocumentException where the text is no JSON at all, at the first such place
   */
  public static Node read(String source, String text, Faults faults)
      throws InvalidDocumentException {
    String bare = text.startsWith("\uFEFF") ? text.substring(1) : text;
    if (bare.length() > MOST_CHARACTERS) {
      throw invalid(Place.of(source), bare.length() + " characters", "at most " + MOST_CHARACTERS);
    }
    if (bare.isBlank()) {
      throw invalid(new Place(source, 1, 1, ""), "an empty document", "a JSON object");
    }
    try (JsonParser parser = FACTORY.createParser(bare)) {
      return root(source, parser, faults);
    } catch (IOException impossible) {
      // The text is in memory.
      throw new UncheckedIOException(impossible);
    }
  }

  private static Node root(String source, JsonParser parser, Faults faults)
      throws IOException, InvalidDocumentException {
    try {
      parser.nextToken();
      Node root = new Builder(source, parser, faults).value(null, "");
      if (parser.nextToken() != null) {
        throw invalid(
            syntax(source, parser.currentTokenLocation()),
            "more after the end of the document",
            "one JSON value");
      }
      return root;
    } catch (StreamConstraintsException beyond) {
      throw invalid(
          syntax(source, parser.currentLocation()),
          "a document too large or nested too deeply",
          "at most " + MOST_VALUES + " values, nested at most " + DEEPEST + " deep");
    } catch (JsonProcessingException wrong) {
      throw invalid(
          syntax(source, wrong.getLocation()), reason(wrong.getOriginalMessage()), "JSON");
    }
  }

  /** The parser's reason without its advice to programmers. */
  private static String reason(String message) {
    String reason = message.lines().findFirst().orElse("an error");
    reason = START_MARKER.matcher(reason).replaceAll(", opened on line $1");
    return Words.plain(ADVICE.matcher(reason).replaceAll(""), 200);
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
  private record Builder(String source, JsonParser parser, Faults faults) {

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
              plain ? parser.getText() : "");
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
                  + Words.quote(key)
                  + " a second time (first on line "
                  + first.place().line()
                  + ")",
              "each key once");
        }
      }
    }
  }
}
