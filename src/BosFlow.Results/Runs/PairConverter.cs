using System.Text.Json;
using System.Text.Json.Serialization;

namespace BosFlow.Results.Runs;

/// <summary>A pair of numbers as [first, second].</summary>
internal sealed class PairConverter : JsonConverter<(double, double)>
{
    public override (double, double) Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        double[] pair = JsonSerializer.Deserialize<double[]>(ref reader, options) ?? [];
        return pair is [double first, double second] && double.IsFinite(first) && double.IsFinite(second) ? (first, second) : throw new JsonException("A pair of finite numbers is expected.");
    }

    public override void Write(Utf8JsonWriter writer, (double, double) value, JsonSerializerOptions options)
    {
        writer.WriteStartArray();
        writer.WriteNumberValue(value.Item1);
        writer.WriteNumberValue(value.Item2);
        writer.WriteEndArray();
    }
}
