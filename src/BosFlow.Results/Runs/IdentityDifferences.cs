using System.Text.Json.Nodes;

namespace BosFlow.Results.Runs;

/// <summary>Says in words where two identities differ.</summary>
internal static class IdentityDifferences
{
    public static IReadOnlyList<string> Between(RunIdentity earlier, RunIdentity now)
    {
        List<string> differences = [];
        if (earlier.ProgramVersion != now.ProgramVersion)
            differences.Add($"the program was version {earlier.ProgramVersion} and is {now.ProgramVersion}");
        if (earlier.FootageDescription != now.FootageDescription)
            differences.Add($"the footage was \"{earlier.FootageDescription}\" and is \"{now.FootageDescription}\"");
        JsonNode before = earlier.SettingsToJson();
        JsonNode after = now.SettingsToJson();
        differences.AddRange(OfSettings(before["case"], after["case"]));
        differences.AddRange(OfInputs(earlier.Inputs, now.Inputs));
        // The scale follows from the case; it is named only where nothing else explains it.
        if (differences.Count == 0)
            differences.AddRange(OfSettings(before["scale"], after["scale"]).Select(d => "scale." + d));
        return differences;
    }

    private static IEnumerable<string> OfSettings(JsonNode? earlier, JsonNode? now)
    {
        Dictionary<string, string> before = Flat(earlier);
        Dictionary<string, string> after = Flat(now);
        foreach (string key in before.Keys.Union(after.Keys))
        {
            string was = before.GetValueOrDefault(key, "not set");
            string now1 = after.GetValueOrDefault(key, "not set");
            if (was != now1)
                yield return $"{key} was {was} and is {now1}";
        }
    }

    private static IEnumerable<string> OfInputs(IReadOnlyList<RunInput> earlier, IReadOnlyList<RunInput> now)
    {
        HashSet<RunInput> before = [.. earlier];
        HashSet<RunInput> after = [.. now];
        HashSet<(string, string)> namesBefore = [.. earlier.Select(Name)];
        HashSet<(string, string)> namesAfter = [.. now.Select(Name)];
        foreach (RunInput input in now.Where(i => !before.Contains(i)))
        {
            yield return namesBefore.Contains(Name(input))
                ? $"the content of the {input.Role} file {input.Name} has changed"
                : $"the {input.Role} file {input.Name} is new";
        }

        foreach (RunInput input in earlier.Where(e => !after.Contains(e) && !namesAfter.Contains(Name(e))))
            yield return $"the {input.Role} file {input.Name} is gone";
        if (before.SetEquals(after) && !earlier.SequenceEqual(now))
            yield return "the order of the input files has changed";

        static (string, string) Name(RunInput input) => (input.Role, input.Name);
    }

    private static Dictionary<string, string> Flat(JsonNode? node)
    {
        Dictionary<string, string> values = [];
        Add(node, string.Empty);
        return values;

        void Add(JsonNode? part, string key)
        {
            if (part is JsonObject section)
            {
                foreach ((string name, JsonNode? value) in section)
                    Add(value, key.Length == 0 ? name : $"{key}.{name}");
            }
            else if (part is not null)
            {
                values[key] = part.ToJsonString();
            }
        }
    }
}
