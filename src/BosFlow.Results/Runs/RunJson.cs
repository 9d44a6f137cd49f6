using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace BosFlow.Results.Runs;

/// <summary>How settings and provenance become JSON: keys with their unit in words, enumerations by name, nothing left out.</summary>
internal static class RunJson
{
    public static JsonSerializerOptions Options { get; } = Make();

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
            WriteIndented = true,
            NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
            // The file is read by people and parsers, never pasted into a page: names keep their letters.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            TypeInfoResolver = new DefaultJsonTypeInfoResolver(),
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.SnakeCaseLower), new PairConverter() },
        };
        options.MakeReadOnly();
        return options;
    }
}
