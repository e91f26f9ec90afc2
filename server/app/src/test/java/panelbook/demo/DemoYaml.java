package panelbook.demo;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.Yaml;

/** Records of the wire as YAML: a field for each component, what is null left out, enums by their words. */
final class DemoYaml {
    private DemoYaml() {}

    static String of(Record value) {
        var options = new DumperOptions();
        options.setDefaultFlowStyle(DumperOptions.FlowStyle.BLOCK);
        options.setWidth(120);
        return new Yaml(options).dump(tree(value));
    }

    private static Object tree(Object value) {
        if (value instanceof Record record) {
            return fields(record);
        }
        if (value instanceof List<?> list) {
            var items = new ArrayList<>(list.size());
            list.forEach(item -> items.add(tree(item)));
            return items;
        }
        return value instanceof Number || value instanceof Boolean ? value : value.toString();
    }

    private static Map<String, Object> fields(Record record) {
        Map<String, Object> fields = new LinkedHashMap<>();
        for (RecordComponent component : record.getClass().getRecordComponents()) {
            Object value = valueOf(record, component);
            if (value != null) {
                fields.put(component.getName(), tree(value));
            }
        }
        return fields;
    }

    private static Object valueOf(Record record, RecordComponent component) {
        try {
            return component.getAccessor().invoke(record);
        } catch (ReflectiveOperationException e) {
            throw new LinkageError("a record of the wire has public components", e);
        }
    }
}
