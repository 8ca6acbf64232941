package quadrille.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Beside the map of the platform that it stands for. */
final class MembersTest {

  private static Node node(int number) {
    return Node.ofText(new Faults(), Place.of("document"), Integer.toString(number));
  }

  @Test
  void answersAsALinkedHashMapDoesWithFewAndWithMany() {
    Random random = new Random(7);
    for (int keys : new int[] {1, 4, 16, 17, 60}) {
      Map<String, Node> expected = new LinkedHashMap<>();
      Members members = new Members();
      for (int i = 0; i < 200; i++) {
        String key = "key " + random.nextInt(keys);
        Node node = node(i);
        switch (random.nextInt(3)) {
          case 0 -> assertEquals(expected.put(key, node), members.put(key, node));
          case 1 -> assertEquals(expected.putIfAbsent(key, node), members.putIfAbsent(key, node));
          default ->
              assertEquals(
                  expected.merge(key, node, (one, other) -> one),
                  members.merge(key, node, (one, other) -> one));
        }
        assertEquals(expected.get(key), members.get(key));
        assertEquals(expected.containsKey("key 3"), members.containsKey("key 3"));
      }
      assertEquals(
          List.copyOf(expected.keySet()), new ArrayList<>(members.keySet()), keys + " keys");
      assertEquals(List.copyOf(expected.values()), new ArrayList<>(members.values()));
      assertEquals(expected.size(), members.size());
    }
  }

  @Test
  void nothingIsInOneThatIsNew() {
    Iterator<Map.Entry<String, Node>> none = new Members().entrySet().iterator();
    assertFalse(none.hasNext());
    assertThrows(NoSuchElementException.class, none::next);
    assertFalse(new Members().containsKey("key"));
  }
}
