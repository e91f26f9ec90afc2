package panelbook.cli.book;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.Dump;
import org.snakeyaml.engine.v2.api.DumpSettings;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;
import panelbook.cli.json.Records;
import panelbook.wire.FacilityBook;

/** Facility books as YAML 1.2: the fields of the book as they are, with the line of each. */
final class BookYaml {

    private static final int MOST_CODE_POINTS = 64 << 20;

    private BookYaml() {}

    static BookFile.Tree read(String file, byte[] bytes) {
        var lines = new HashMap<String, Integer>();
        var problems = new ArrayList<String>();
        @Nullable Object root = null;
        try {
            var settings = LoadSettings.builder()
                    .setLabel(file)
                    .setAllowDuplicateKeys(false)
                    .setCodePointLimit(MOST_CODE_POINTS)
                    .build();
            var node = new Compose(settings).composeInputStream(new ByteArrayInputStream(bytes));
            root = node.isPresent() ? new Walk(file, lines, problems).tree("", node.get()) : null;
        } catch (MarkedYamlEngineException e) {
            problems.add(file + line(e) + ": " + e.getProblem());
        } catch (YamlEngineException e) {
            problems.add(file + ": "
                    + String.valueOf(e.getMessage()).lines().findFirst().orElse("not YAML"));
        }
        return new BookFile.Tree(root, lines, problems);
    }

    private static String line(MarkedYamlEngineException e) {
        return e.getProblemMark().map(mark -> ", line " + (mark.getLine() + 1)).orElse("");
    }

    private record Walk(String file, Map<String, Integer> lines, List<String> problems) {

        @Nullable
        Object tree(String pointer, Node node) {
            node.getStartMark().ifPresent(mark -> lines.putIfAbsent(pointer, mark.getLine() + 1));
            if (node.isRecursive()) {
                problems.add(file + ", line " + lines.get(pointer) + ": an anchor contains itself");
                return null;
            }
            if (node instanceof MappingNode mapping) {
                return map(pointer, mapping);
            }
            if (node instanceof SequenceNode sequence) {
                return list(pointer, sequence);
            }
            // values stay as they were written: what they are is said by the field they stand in
            return node instanceof ScalarNode scalar && !Tag.NULL.equals(scalar.getTag()) ? scalar.getValue() : null;
        }

        private Map<String, @Nullable Object> map(String pointer, MappingNode mapping) {
            var map = new LinkedHashMap<String, @Nullable Object>();
            for (var tuple : mapping.getValue()) {
                var name = tuple.getKeyNode() instanceof ScalarNode key ? key.getValue() : "?";
                var place = pointer + "/" + name;
                tuple.getKeyNode().getStartMark().ifPresent(mark -> lines.put(place, mark.getLine() + 1));
                if (map.containsKey(name)) {
                    problems.add(file + ", line " + lines.get(place) + ": " + name + " stands here twice");
                }
                map.put(name, tree(place, tuple.getValueNode()));
            }
            return map;
        }

        private List<@Nullable Object> list(String pointer, SequenceNode sequence) {
            var list = new ArrayList<@Nullable Object>();
            for (var item : sequence.getValue()) {
                list.add(tree(pointer + "/" + list.size(), item));
            }
            return list;
        }
    }

    static String write(FacilityBook book) {
        var settings = DumpSettings.builder()
                .setDefaultFlowStyle(FlowStyle.BLOCK)
                .setIndent(2)
                .setWidth(120)
                .build();
        return new Dump(settings).dumpToString(Records.deepTree(book));
    }
}
