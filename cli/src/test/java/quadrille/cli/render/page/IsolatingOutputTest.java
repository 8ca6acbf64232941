package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gg.jte.output.StringOutput;
import org.junit.jupiter.api.Test;

final class IsolatingOutputTest {

  private static String written(String tag, String attribute, String text) {
    StringOutput out = new StringOutput();
    IsolatingOutput isolating = new IsolatingOutput(out);
    isolating.setContext(tag, attribute);
    isolating.writeUserContent(text);
    return out.toString();
  }

  @Test
  void whatPeopleReadReachesNotBeyondItself() {
    assertEquals("\u2068\u202ea&lt;b\u2069", written("td", null, "\u202ea<b"));
    assertEquals("a&lt;b", written("td", null, "a<b"));
  }

  @Test
  void whatIsSentBackStaysAsItWasTyped() {
    assertEquals("\u202ea", written("input", "value", "\u202ea"));
    assertEquals("\u202ea", written("textarea", null, "\u202ea"));
    assertEquals("\u202ea", written("option", null, "\u202ea"));
  }
}
