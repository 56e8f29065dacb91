// Text that tries to run as script, in every way found text might.
export const attacks = [
  `<script>window.hurt = 1</script>`,
  `<img src=x onerror="window.hurt=1">`,
  `"><svg onload=window.hurt=1>`,
  `javascript:window.hurt=1`,
  `<a href="javascript:window.hurt=1">flour</a>`,
  `</textarea><script>window.hurt=1</script>`,
  `<iframe srcdoc="<script>parent.hurt=1</script>"></iframe>`,
  `{{constructor.constructor('window.hurt=1')()}}`,
  "${window.hurt=1}",
  `<style>@import url(http://elsewhere.example/x.css);</style>`,
  `<img src="http://elsewhere.example/pixel.gif">`,
  `\u202Eruolf g 005\u202C`,
  `<math><mtext></mtext><mglyph><svg><mtext><textarea><path id="</textarea><img onerror=window.hurt=1 src=1>">`,
];
